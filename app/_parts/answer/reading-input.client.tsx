"use client";

import { useId, useState } from "react";
import { FieldError } from "@/app/_ui/field";
import { type Limits, outsideWords, sideOf } from "./answer-words";
import fields from "./fields.module.css";
import { LimitLine } from "./limit-line";
import { grouped, readReading, type Scale } from "./reading";
import styles from "./reading.module.css";

export interface ReadingInputProps {
  readonly label: string;
  readonly text: string;
  readonly scale: Scale;
  readonly limits: Limits;
  readonly error: string | null;
  readonly onText: (text: string) => void;
  /** Takes the focus when the item comes up. */
  readonly first?: boolean;
  /** No pad of ours stands below: let the phone show its own keyboard. */
  readonly keyboard?: boolean;
}

/**
 * One reading in big figures with its unit and its limit. `inputMode` none: a phone shows our pad instead of its own keyboard,
 * and a keyboard types as ever. Digits are grouped only while nobody is typing in the field.
 */
export function ReadingInput({ label, text, scale, limits, error, onText, first, keyboard }: ReadingInputProps) {
  const [typing, setTyping] = useState(false);
  const id = useId();
  const read = text === "" ? null : readReading(text, scale);
  const soon = error ?? (read && !read.ok && isWrongAlready(text) ? read.message : null);
  const value = read?.ok ? read.value : null;
  const side = value === null ? null : sideOf({ value, unit: scale.unit }, limits);
  const sideText = value === null ? null : outsideWords({ value, unit: scale.unit }, limits);
  return (
    <div className={fields.field}>
      <label className={soon ? `${styles.plate} ${styles.plateWrong}` : styles.plate}>
        <input
          data-first={first ? "" : undefined}
          className={styles.figures}
          aria-label={`${label}, in ${scale.unit}`}
          aria-describedby={`${id}-limit ${id}-wrong`}
          aria-invalid={soon ? true : undefined}
          type="text"
          inputMode={keyboard ? "decimal" : "none"}
          enterKeyHint="next"
          autoComplete="off"
          placeholder="–"
          value={typing ? text : grouped(text)}
          onFocus={() => setTyping(true)}
          onBlur={() => setTyping(false)}
          onChange={(event) => onText(event.target.value.slice(0, 12))}
        />
        <span className={styles.unit} aria-hidden="true">
          {scale.unit}
        </span>
        <span className={styles.side}>
          {limits ? (
            <span id={`${id}-limit`} className={styles.limitText}>
              {limits.text}
            </span>
          ) : null}
          {side ? (
            <span className={side === "within" ? styles.within : styles.outside}>{sideText ?? "Within the limit"}</span>
          ) : null}
        </span>
      </label>
      <LimitLine limits={limits} scale={scale} value={value} />
      <div id={`${id}-wrong`} role="alert">
        {soon ? <FieldError>{soon}</FieldError> : null}
      </div>
    </div>
  );
}

/** Said at once, before Next is pressed: what no further figure can put right. An unfinished number is nobody's mistake. */
const isWrongAlready = (text: string): boolean => /[^\d.]/.test(text.trim()) || text.length > 4;
