"use client";

import { countText } from "@/app/_parts/format";
import { TextField } from "@/app/_ui/field";
import type { TaskDetail } from "@/lib/schemas/task";
import styles from "./swap-cylinder.module.css";

type Spare = NonNullable<TaskDetail["swap"]>["spares"][number];
export type ChosenSpare = { readonly id: string } | { readonly serial: string };

export interface SpareChoiceProps {
  readonly spares: readonly Spare[];
  readonly chosen: ChosenSpare | null;
  readonly onChoose: (spare: ChosenSpare | null) => void;
  readonly error: string | null;
}

const MOST_SHOWN = 6;

/** The spares that fit, by store: tap the one in hand, or type the serial number that stands on its label; typing narrows the list. */
export function SpareChoice({ spares, chosen, onChoose, error }: SpareChoiceProps) {
  const typed = chosen && "serial" in chosen ? chosen.serial.trim() : "";
  const fitting = spares.filter(({ serial }) => serial.toLowerCase().includes(typed.toLowerCase()));
  const shown = shownFirst(fitting, chosen);
  const more = fitting.length - shown.length;
  return (
    <div className={styles.steps}>
      <TextField
        label="Serial number on the label"
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        maxLength={60}
        value={chosen ? chosenWords(chosen, spares) : ""}
        error={error}
        onChange={(event) => onChoose(event.target.value === "" ? null : { serial: event.target.value })}
      />
      {spares.length === 0 ? <p className={styles.soft}>No spare that fits is recorded in a store.</p> : null}
      {byStore(shown).map(([store, inStore]) => (
        <section key={store} aria-label={store}>
          <h3>{store}</h3>
          <ul className={styles.spares}>
            {inStore.map((spare) => (
              <li key={spare.id}>
                <SpareButton
                  spare={spare}
                  chosen={isChosen(spare, chosen)}
                  onChoose={() => onChoose({ id: spare.id })}
                />
              </li>
            ))}
          </ul>
        </section>
      ))}
      {more > 0 ? (
        <p className={styles.soft}>{countText(more, "more spare")}: type part of the serial number.</p>
      ) : null}
    </div>
  );
}

function SpareButton({ spare, chosen, onChoose }: { spare: Spare; chosen: boolean; onChoose: () => void }) {
  return (
    <button type="button" className={styles.spare} aria-pressed={chosen} onClick={onChoose}>
      <span className={chosen ? styles.chosen : undefined}>{spare.serial}</span>
      <span className={styles.soft}>
        size {spare.size}, {spare.contents}
      </span>
    </button>
  );
}

const isChosen = (spare: Spare, chosen: ChosenSpare | null): boolean =>
  chosen !== null && "id" in chosen && chosen.id === spare.id;

/** A store holds dozens: the first few, and the chosen one wherever it stands. */
function shownFirst(fitting: readonly Spare[], chosen: ChosenSpare | null): Spare[] {
  const rest = fitting.slice(MOST_SHOWN).filter((spare) => isChosen(spare, chosen));
  return [...fitting.slice(0, MOST_SHOWN), ...rest];
}

function byStore(spares: readonly Spare[]): [string, Spare[]][] {
  const stores = new Map<string, Spare[]>();
  for (const spare of spares) stores.set(spare.store, [...(stores.get(spare.store) ?? []), spare]);
  return [...stores];
}

/** The serial number of what was chosen, however it was chosen. */
export function chosenWords(chosen: ChosenSpare, spares: readonly Spare[]): string {
  if ("serial" in chosen) return chosen.serial;
  return spares.find(({ id }) => id === chosen.id)?.serial ?? "chosen cylinder";
}
