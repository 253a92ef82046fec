"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { SelectField } from "@/app/_ui/field";
import { GROUPS } from "@/lib/exchange/calculator/calculation";
import { addressOf, type ChoicesProps } from "./calculation-nav";
import styles from "./calculator.module.css";
import { GROUP_WORDS } from "./words";

/** Choosing does not yet go there: arrow keys walk through a list, and a page that changes under them is a trap (WCAG 3.2.2). */
export function CalculationSelect({ here, choices }: ChoicesProps) {
  const [chosen, setChosen] = useState(here);
  const router = useRouter();
  return (
    <form
      className={styles.select}
      onSubmit={(event) => {
        event.preventDefault();
        router.push(addressOf(chosen));
      }}
    >
      <SelectField label="Calculation" value={chosen} onChange={(event) => setChosen(event.target.value)}>
        {GROUPS.map((group) => (
          <optgroup key={group} label={GROUP_WORDS[group]}>
            {choices
              .filter((one) => one.group === group)
              .map(({ name, title }) => (
                <option key={name} value={name}>
                  {title}
                </option>
              ))}
          </optgroup>
        ))}
      </SelectField>
      <Button type="submit" look={chosen === here ? "plain" : "primary"}>
        Show
      </Button>
    </form>
  );
}
