"use client";

import { answerWords } from "@/app/_parts/answer/answer-words";
import { Button } from "@/app/_ui/button.client";
import { classNames } from "@/app/_ui/class-names";
import { type CheckState, standingOf } from "./check-state";
import { ItemMark } from "./item-mark";
import styles from "./last-answer.module.css";

/** What the last tap recorded, said and changeable: the screen has already moved on to the next item. */
export function LastAnswer({
  state,
  last,
  onChange,
}: {
  state: CheckState;
  last: string | null;
  onChange: (key: string) => void;
}) {
  const item = state.view.items.find((one) => one.key === last) ?? null;
  const standing = item ? standingOf(state, item) : null;
  const failing = standing?.state === "failing";
  return (
    <div className={classNames(styles.strip, failing && styles.failing)} role="status">
      {item && standing?.answer ? (
        <>
          <ItemMark state={standing.state} />
          <span className={styles.words}>
            {item.title}: <strong>{answerWords(standing.answer, item.form)}</strong>
            {failing ? ", fails" : ""}
            {standing.recorded?.worth ? <span> · {standing.recorded.worth}</span> : null}
            {standing.recorded?.since ? <span> · {standing.recorded.since}</span> : null}
            {standing.recorded?.previous ? (
              <span className={styles.before}>
                {" "}
                · before: {answerWords(standing.recorded.previous.answer, item.form)}
              </span>
            ) : null}
          </span>
          <Button look="quiet" aria-label={`Change ${item.title}`} onClick={() => onChange(item.key)}>
            Change
          </Button>
        </>
      ) : null}
    </div>
  );
}
