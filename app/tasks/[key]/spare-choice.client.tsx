"use client";

import { TextField } from "@/app/_ui/field";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import styles from "@/app/tasks/tasks.module.css";
import type { TaskDetail } from "@/lib/schemas/task";

type Spare = NonNullable<TaskDetail["swap"]>["spares"][number];
export type ChosenSpare = { readonly id: string } | { readonly serial: string };

export interface SpareChoiceProps {
  readonly spares: readonly Spare[];
  readonly chosen: ChosenSpare | null;
  readonly onChoose: (spare: ChosenSpare | null) => void;
  readonly error: string | null;
}

/** The spares that fit, by store: tap the one in hand, or type the serial number that stands on its label. */
export function SpareChoice({ spares, chosen, onChoose, error }: SpareChoiceProps) {
  const serial = chosen && "serial" in chosen ? chosen.serial : "";
  return (
    <div className={styles.steps}>
      <TextField
        label="Serial number on the label"
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        maxLength={60}
        value={serial}
        error={error}
        onChange={(event) => onChoose(event.target.value.trim() === "" ? null : { serial: event.target.value })}
      />
      {spares.length === 0 ? <p className={styles.soft}>No spare that fits is recorded in a store.</p> : null}
      {byStore(spares).map(([store, inStore]) => (
        <section key={store} aria-label={store}>
          <h3>{store}</h3>
          <ul className={styles.spares}>
            {inStore.map((spare) => {
              const isChosen = chosen !== null && "id" in chosen && chosen.id === spare.id;
              return (
                <li key={spare.id}>
                  <button
                    type="button"
                    className={styles.spare}
                    aria-pressed={isChosen}
                    onClick={() => onChoose({ id: spare.id })}
                  >
                    <span className={isChosen ? styles.chosen : undefined}>
                      {spare.serial}
                      {isChosen ? <VisuallyHidden>, chosen</VisuallyHidden> : null}
                    </span>
                    <span className={styles.soft}>
                      size {spare.size}, {spare.contents}
                    </span>
                  </button>
                </li>
              );
            })}
          </ul>
        </section>
      ))}
    </div>
  );
}

function byStore(spares: readonly Spare[]): [string, Spare[]][] {
  const stores = new Map<string, Spare[]>();
  for (const spare of spares) stores.set(spare.store, [...(stores.get(spare.store) ?? []), spare]);
  return [...stores];
}

/** The serial number of what was chosen, however it was chosen. */
export function chosenWords(chosen: ChosenSpare, spares: readonly Spare[]): string {
  if ("serial" in chosen) return chosen.serial.trim();
  return spares.find(({ id }) => id === chosen.id)?.serial ?? "chosen cylinder";
}
