"use client";

import type { PointerEvent } from "react";
import { pressKey } from "./reading";
import styles from "./reading.module.css";

const FIGURES = ["1", "2", "3", "4", "5", "6", "7", "8", "9"] as const;
/** A press of the pad leaves the focus where it was, so a screen reader and a keyboard stay on the reading. */
const keepFocus = (event: PointerEvent) => event.preventDefault();

export interface NumberPadProps {
  readonly text: string;
  readonly decimals: number;
  readonly unit: string;
  /** The text is a recorded answer, which the first figure replaces. */
  readonly recorded?: boolean;
  readonly onText: (text: string) => void;
}

/** Our own number pad: large keys in one place, and no comma to mistake for a point. */
export function NumberPad({ text, decimals, unit, recorded, onText }: NumberPadProps) {
  const key = (value: string, label: string) => (
    <button
      key={value}
      type="button"
      className={styles.padKey}
      aria-label={label}
      onPointerDown={keepFocus}
      onClick={() => onText(pressKey(recorded ? "" : text, value))}
    >
      {value === "back" ? <BackShape /> : value}
    </button>
  );
  return (
    <fieldset className={styles.pad} aria-label="Number pad">
      {FIGURES.map((figure) => key(figure, figure))}
      {key("back", "Delete last figure")}
      {key("0", "0")}
      {decimals > 0 ? key(".", "Decimal point") : <span className={styles.padUnit}>{unit}</span>}
    </fieldset>
  );
}

function BackShape() {
  return (
    <svg viewBox="0 0 28 22" aria-hidden="true" focusable="false">
      <path d="M9 2h17v18H9L2 11z" fill="none" stroke="currentColor" strokeWidth="2" strokeLinejoin="round" />
      <path d="M13 7.5l8 7m0-7l-8 7" stroke="currentColor" strokeWidth="2" strokeLinecap="round" />
    </svg>
  );
}
