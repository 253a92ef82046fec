"use client";

import { answerWords } from "@/app/_parts/answer/answer-words";
import { type CheckState, standingOf } from "./check-state";
import { ItemMark } from "./item-mark";
import styles from "./item-rail.module.css";

export interface ItemRailProps {
  readonly state: CheckState;
  readonly current: string | null;
  readonly onGo: (key: string) => void;
}

/** Every item in the procedure's order with what was answered: the way to any of them, and the check at a glance on a desk. */
export function ItemRail({ state, current, onGo }: ItemRailProps) {
  return (
    <ol className={styles.rail}>
      {state.view.items.map((item, index) => {
        const standing = standingOf(state, item);
        return (
          <li key={item.key}>
            <button
              type="button"
              className={styles.item}
              aria-current={item.key === current ? "step" : undefined}
              onClick={() => onGo(item.key)}
            >
              <span className={styles.number}>{index + 1}</span>
              <ItemMark state={standing.state} />
              <span className={styles.title}>
                {item.title}
                {standing.answer ? (
                  <span className={styles.answer}>{answerWords(standing.answer, item.form)}</span>
                ) : null}
              </span>
            </button>
          </li>
        );
      })}
    </ol>
  );
}
