"use client";

import { type ReactNode, useId } from "react";
import styles from "@/app/_parts/plates.module.css";
import { FieldError, TextField } from "@/app/_ui/field";
import type { FitChosen } from "./fit-chosen";
import { byGroup, type FitOption } from "./fit-options";

interface PartChoiceProps {
  name: string;
  product: string | null;
  options: readonly FitOption[];
  chosen: FitChosen | null;
  onChoose: (chosen: FitChosen | null) => void;
  error: string | null;
}

const MOST_SHOWN = 6;

/** The same product again stands alone in sight where it can be meant; else the tag on a label, or one from a store. */
export function PartChoice({ name, product, options, chosen, onChoose, error }: PartChoiceProps) {
  const group = useId();
  const byTag = (
    <Known name={name} group={group} options={options} chosen={chosen} onChoose={onChoose} first={product === null} />
  );
  return (
    <fieldset className={styles.choice}>
      <legend className={styles.legend}>Goes on</legend>
      {product === null ? (
        byTag
      ) : (
        <>
          <Plate
            group={group}
            tag="A new one, the same again"
            what={product}
            chosen={chosen?.by === "same"}
            onChoose={() => onChoose({ by: "same" })}
          />
          <details className={styles.others}>
            <summary>Another one, by its tag or from a store</summary>
            <div className={styles.choice}>{byTag}</div>
          </details>
        </>
      )}
      {error ? <FieldError>{error}</FieldError> : null}
    </fieldset>
  );
}

function Known({
  name,
  group,
  options,
  chosen,
  onChoose,
  first,
}: Pick<PartChoiceProps, "name" | "options" | "chosen" | "onChoose"> & { group: string; first: boolean }) {
  const typed = chosen?.by === "tag" ? chosen.tag : "";
  const fitting = options.filter(({ tag }) => tag.toLowerCase().includes(typed.trim().toLowerCase()));
  const shown = fitting.slice(0, MOST_SHOWN);
  const more = fitting.length - shown.length;
  return (
    <>
      <TextField
        label="Tag on its label"
        hint={first ? "Typing narrows the list below." : undefined}
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        maxLength={60}
        value={typed}
        onChange={(event) => onChoose(event.target.value === "" ? null : { by: "tag", tag: event.target.value })}
      />
      {byGroup(shown).map(([place, parts]) => (
        <section key={place} aria-label={place} className={styles.plates}>
          <h3 className={styles.group}>{place}</h3>
          {parts.map(({ id, tag, what, takenFrom, unavailable }) =>
            unavailable ? (
              <Unavailable key={id}>
                {tag} {what}: {unavailable}
              </Unavailable>
            ) : (
              <Plate
                key={id}
                group={group}
                tag={tag}
                what={what}
                chosen={chosen?.by === "id" && chosen.id === id}
                onChoose={() => onChoose({ by: "id", id, takenFrom })}
              />
            ),
          )}
        </section>
      ))}
      {options.length === 0 ? <p className={styles.why}>No spare {name} is recorded in a store.</p> : null}
      {more > 0 ? <p className={styles.why}>And {more} more: type part of the tag.</p> : null}
    </>
  );
}

function Plate({
  group,
  tag,
  what,
  chosen,
  onChoose,
}: {
  group: string;
  tag: string;
  what: string;
  chosen: boolean;
  onChoose: () => void;
}) {
  return (
    <label className={styles.plate}>
      <input type="radio" name={group} checked={chosen} onChange={onChoose} />
      <span className={styles.oneLine}>
        <strong>{tag}</strong> <span className={styles.why}>{what}</span>
      </span>
    </label>
  );
}

const Unavailable = ({ children }: { children: ReactNode }) => (
  <div className={styles.refusedPlate}>
    <span>{children}</span>
  </div>
);
