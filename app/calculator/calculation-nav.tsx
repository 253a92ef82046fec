import Link from "next/link";
import { GROUPS, type Group } from "@/lib/exchange/calculator/calculation";
import styles from "./calculator.module.css";
import { GROUP_WORDS } from "./words";

export interface Choice {
  readonly name: string;
  readonly title: string;
  readonly group: Group;
}

export interface ChoicesProps {
  here: string;
  choices: readonly Choice[];
}

export const addressOf = (name: string): string => `/calculator?calculation=${name}`;

/** Every calculation as a link of its own; a phone has a list to choose from instead. */
export function CalculationNav({ here, choices }: ChoicesProps) {
  return (
    <nav aria-label="Calculations" className={styles.nav}>
      {GROUPS.map((group) => (
        <div key={group}>
          <h2>{GROUP_WORDS[group]}</h2>
          <ul>
            {choices
              .filter((one) => one.group === group)
              .map(({ name, title }) => (
                <li key={name}>
                  <Link href={addressOf(name)} prefetch={false} aria-current={name === here ? "page" : undefined}>
                    {title}
                  </Link>
                </li>
              ))}
          </ul>
        </div>
      ))}
    </nav>
  );
}
