"use client";

import { errorOf, type FieldProps } from "./field-props";
import styles from "./fields.module.css";
import { NumberPad } from "./number-pad.client";
import { ReadingInput } from "./reading-input.client";
import { gaugeScale, type Typed } from "./typed";
import { YesNo } from "./yes-no.client";

type TypedGauge = Extract<Typed, { kind: "gauge" }>;

/**
 * A cylinder gauge: the reading, and two questions that nobody answers for the person. A gauge read with the valve shut shows what was
 * trapped in the line; a valve left open lets a failing pipeline empty the cylinder unseen.
 */
export function GaugeField({ form, typed, label, limits, error, recorded, onTyped, onComplete }: FieldProps<"gauge">) {
  const scale = gaugeScale(form);
  const onText = (text: string) => onTyped({ ...typed, text });
  const answer = (next: TypedGauge) => {
    const whole = next.text !== "" && next.open !== null && next.shut !== null;
    const first = typed.open === null || typed.shut === null;
    // The second toggle completes the answer, but changing one of two that already stood waits for Next.
    return whole && first ? onComplete(next) : onTyped(next);
  };
  return (
    <div className={styles.field}>
      <ReadingInput
        label={label}
        text={typed.text}
        scale={scale}
        limits={limits}
        error={errorOf(error, "reading")}
        onText={onText}
        first
      />
      <div className={styles.asks}>
        <YesNo
          label="Valve open when read?"
          yes="Yes"
          no="No"
          field="open"
          value={typed.open}
          error={error?.field === "open" ? error.message : null}
          onChange={(open) => answer({ ...typed, open })}
        />
        <YesNo
          label="Shut again?"
          yes="Yes"
          no="No"
          field="shut"
          value={typed.shut}
          error={error?.field === "shut" ? error.message : null}
          onChange={(shut) => answer({ ...typed, shut })}
        />
      </div>
      <NumberPad text={typed.text} decimals={scale.decimals} unit={scale.unit} recorded={recorded} onText={onText} />
    </div>
  );
}
