"use client";

import { useId } from "react";
import { Button } from "@/app/_ui/button.client";
import { upperFirst } from "@/lib/domain/wording";
import type { FieldProps } from "./field-props";
import fields from "./fields.module.css";
import { onAnswerKey } from "./keys.client";
import reading from "./reading.module.css";
import { ReadingInput } from "./reading-input.client";
import styles from "./timed.module.css";
import { type Stopwatch, useStopwatch } from "./timer.client";
import { SECONDS } from "./typed";
import { YesNo } from "./yes-no.client";

/** A test against the clock: start it, watch, and say whether it held. Two taps are the answer; or the seconds by hand. */
export function TimedField({ form, typed, label, limits, error, onTyped, onComplete }: FieldProps<"timed">) {
  const watch = useStopwatch();
  const reached = watch.seconds >= form.seconds;
  const finish = (held: boolean) => {
    if (!watch.running || (held && !reached)) return;
    onComplete({ ...typed, text: String(watch.stop()), held });
  };
  return (
    <div className={fields.field}>
      <fieldset
        className={styles.clock}
        aria-label={label}
        onKeyDown={onAnswerKey({ y: () => finish(true), n: () => finish(false) })}
      >
        <p className={reading.limitText}>
          {upperFirst(form.what)}, at least {form.seconds} s
        </p>
        <p>
          <span className={styles.seconds}>{shownSeconds(watch, typed.text)}</span>{" "}
          <span className={reading.unit}>s</span>
        </p>
        <RunBar share={Math.min(1, watch.seconds / form.seconds)} reached={reached} />
        <p className={reading.limitText} role="status">
          {watch.running
            ? reached
              ? `${form.seconds} s reached. Say whether it still holds.`
              : "Running."
            : said(typed.held)}
        </p>
        <ClockButtons watch={watch} needed={form.seconds} again={typed.held !== null} onFinish={finish} />
      </fieldset>
      <details className={styles.byHand}>
        <summary>Timed with a watch: enter the seconds</summary>
        <div className={fields.field}>
          <ReadingInput
            label={`${label}, seconds`}
            text={typed.text}
            scale={SECONDS}
            limits={limits}
            error={error?.field === "seconds" ? error.message : null}
            onText={(text) => onTyped({ ...typed, text })}
            keyboard
          />
          <YesNo
            label="Did it hold?"
            yes="Held"
            no="Gave way"
            field="held"
            value={typed.held}
            onChange={(held) => onTyped({ ...typed, held })}
            error={error?.field === "held" ? error.message : null}
          />
        </div>
      </details>
    </div>
  );
}

const shownSeconds = (watch: Stopwatch, typed: string): string =>
  (watch.running || watch.seconds > 0 ? watch.seconds : Number(typed) || 0).toFixed(1);

const said = (held: boolean | null): string => (held === null ? "Not started." : held ? "It held." : "It gave way.");

function ClockButtons(props: { watch: Stopwatch; needed: number; again: boolean; onFinish: (held: boolean) => void }) {
  const { watch, needed, again, onFinish } = props;
  const whyId = useId();
  const left = Math.ceil(needed - watch.seconds);
  if (!watch.running) {
    return (
      <Button look="primary" size="large" onClick={watch.start} data-first="">
        {again ? "Start again" : "Start the clock"}
      </Button>
    );
  }
  return (
    <div className={styles.pair}>
      <Button look="stop" size="large" onClick={() => onFinish(false)}>
        Gave way
      </Button>
      <Button
        look={left > 0 ? "plain" : "primary"}
        size="large"
        aria-disabled={left > 0}
        aria-describedby={left > 0 ? whyId : undefined}
        onClick={() => onFinish(true)}
      >
        <span className={styles.held}>
          Held
          {left > 0 ? (
            <small id={whyId} className={reading.limitText}>
              {left} s to go
            </small>
          ) : null}
        </span>
      </Button>
      <Button size="large" onClick={watch.reset}>
        Stop, without an answer
      </Button>
    </div>
  );
}

function RunBar({ share, reached }: { share: number; reached: boolean }) {
  return (
    <svg className={styles.run} viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
      <rect className={reading.scale} width="100" height="10" />
      <rect className={reached ? styles.runHeld : styles.runDone} width={100 * share} height="10" />
    </svg>
  );
}
