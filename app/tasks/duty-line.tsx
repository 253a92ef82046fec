import Link from "next/link";
import { countText, whenText } from "@/app/_parts/format";
import { ROLE_WORDS } from "@/app/_parts/words";
import type { Role } from "@/lib/domain/vocabulary";
import type { TaskList } from "@/lib/schemas/task";
import own from "./duty-line.module.css";
import styles from "./tasks.module.css";

type Duty = TaskList["duty"];

/** Who is on duty, in one line; nobody there and nobody entered are two different things, and both are said. */
export function DutyLine({ duty, now, zone }: { duty: Duty; now: string; zone: string }) {
  const { people, onRoster } = duty;
  const roles = byRole(people);
  return (
    <p className={people.length === 0 && onRoster ? styles.heed : own.duty}>
      <Link href="/tasks/duty" prefetch={false}>
        On duty now
      </Link>
      {": "}
      {people.length === 0 ? (onRoster ? "nobody, by the roster" : "no roster was entered for today") : null}
      <span className={own.dutyCounts}>{people.length > 0 ? countText(people.length, "person", "people") : null}</span>
      <span className={own.dutyNames}>
        {roles
          .map(
            ([role, there]) =>
              `${ROLE_WORDS[role]} ${there.map(({ name, until }) => `${name} until ${whenText(until, now, zone)}`).join(", ")}`,
          )
          .join(" · ")}
      </span>
    </p>
  );
}

export function byRole(people: Duty["people"]): [Role, Duty["people"]][] {
  const roles = new Map<Role, Duty["people"]>();
  for (const person of people) for (const role of person.roles) roles.set(role, [...(roles.get(role) ?? []), person]);
  return [...roles];
}
