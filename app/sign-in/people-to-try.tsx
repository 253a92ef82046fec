import { ROLE_WORDS } from "@/app/_parts/words";
import type { Role } from "@/lib/domain/vocabulary";
import styles from "./sign-in.module.css";

export interface PersonToTry {
  userId: string;
  name: string;
  facility: string;
  roles: readonly Role[];
}

interface PeopleToTryProps {
  people: readonly PersonToTry[];
  password: string | null;
  chosen: string;
  onChoose: (person: PersonToTry) => void;
}

/** The demo's people, by facility; a tap fills in the user id and the demo's password. They exist in the demo only. */
export function PeopleToTry({ people, password, chosen, onChoose }: PeopleToTryProps) {
  const facilities = [...new Set(people.map(({ facility }) => facility))];
  return (
    <section className={styles.people} aria-labelledby="people">
      <h2 id="people">This is the demo: be one of its people</h2>
      {password ? (
        <p>
          One tap fills in the user id and the password, which is <code>{password}</code> for all of them.
        </p>
      ) : null}
      {facilities.map((facility) => (
        <div key={facility}>
          <h3>{facility}</h3>
          <ul>
            {people
              .filter((person) => person.facility === facility)
              .map((person) => (
                <li key={person.userId}>
                  <button
                    type="button"
                    className={styles.person}
                    aria-pressed={chosen === person.userId}
                    onClick={() => onChoose(person)}
                  >
                    <strong>{person.name}</strong>
                    <span>{person.roles.map((role) => ROLE_WORDS[role]).join(", ")}</span>
                    <code>{person.userId}</code>
                  </button>
                </li>
              ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
