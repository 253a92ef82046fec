"use client";

import { NEED_WORDS } from "@/app/_parts/words";
import { Checkbox } from "@/app/_ui/choice";
import { TextField } from "@/app/_ui/field";
import { typedNumber } from "@/app/set-up/number-text";
import styles from "@/app/set-up/set-up.module.css";
import { NEEDS, type Need } from "@/lib/domain/vocabulary";

/** A list as it is typed; times and minutes are texts until they are sent. */
export interface TypedList {
  firstCase: string;
  ends: string;
  needs: readonly Need[];
  setUpMinutes: string;
}

export interface ShownList {
  firstCase: string | null;
  ends: string | null;
  needs: readonly Need[];
  setUpMinutes: number;
}

export const USUAL: TypedList = { firstCase: "07:30", ends: "15:30", needs: [], setUpMinutes: "0" };

export const typedOf = ({ firstCase, ends, needs, setUpMinutes }: ShownList): TypedList => ({
  firstCase: firstCase ?? "",
  ends: ends ?? "",
  needs,
  setUpMinutes: String(setUpMinutes),
});

export const sentOf = ({ firstCase, ends, needs, setUpMinutes }: TypedList) => ({
  firstCase: firstCase.trim() || null,
  ends: ends.trim() || null,
  needs: [...needs],
  setUpMinutes: typedNumber(setUpMinutes),
});

export interface ListFieldsProps {
  list: TypedList;
  onList: (list: TypedList) => void;
  error: (field: string) => string | null;
  /** Said before each label when several lists stand on one screen. */
  of?: string;
}

/** First case, end, set-up time and needs. Nothing ticked means that nobody knows. */
export function ListFields({ list, onList, error, of }: ListFieldsProps) {
  const label = (text: string) => (of ? `${of}: ${text}` : text);
  return (
    <>
      <div className={styles.pair}>
        <TextField
          label={label("first case")}
          type="time"
          value={list.firstCase}
          error={error("firstCase")}
          onChange={(event) => onList({ ...list, firstCase: event.target.value })}
        />
        <TextField
          label={label("ends")}
          type="time"
          value={list.ends}
          error={error("ends")}
          onChange={(event) => onList({ ...list, ends: event.target.value })}
        />
        <TextField
          label={label("set-up, minutes")}
          inputMode="numeric"
          value={list.setUpMinutes}
          error={error("setUpMinutes")}
          onChange={(event) => onList({ ...list, setUpMinutes: event.target.value })}
        />
      </div>
      <fieldset>
        <legend className={styles.soft}>
          {label("needs; none ticked means unknown: volatile agent, ventilator, low flow")}
        </legend>
        <div className={styles.roles}>
          {NEEDS.map((need) => (
            <Checkbox
              key={need}
              label={NEED_WORDS[need]}
              checked={list.needs.includes(need)}
              onChange={(event) =>
                onList({
                  ...list,
                  needs: NEEDS.filter((one) => (one === need ? event.target.checked : list.needs.includes(one))),
                })
              }
            />
          ))}
        </div>
      </fieldset>
    </>
  );
}
