import type { ReactNode } from "react";
import { answerWords } from "@/app/_parts/answer/answer-words";
import { clockText } from "@/app/_parts/format";
import type { CheckItemView } from "@/lib/schemas/check";
import styles from "./answers-list.module.css";
import type { ItemStanding } from "./check-state";
import { ItemMark } from "./item-mark";

export interface AnsweredItem {
  readonly item: CheckItemView;
  readonly standing: ItemStanding;
}

/** Items with their answers, for reading before a signature. `action` may offer the way back to one. */
export function AnswersList({
  rows,
  zone,
  action,
}: {
  rows: readonly AnsweredItem[];
  zone: string;
  action?: (item: CheckItemView) => ReactNode;
}) {
  return (
    <ul className={styles.list}>
      {rows.map(({ item, standing }) => (
        <li key={item.key} className={styles.row}>
          <ItemMark state={standing.state} />
          <div className={styles.words}>
            <span>{item.title}</span>
            {standing.answer ? (
              <strong className={styles.answer}>{answerWords(standing.answer, item.form)}</strong>
            ) : null}
            <Small standing={standing} item={item} zone={zone} />
          </div>
          {action ? <div className={styles.action}>{action(item)}</div> : null}
        </li>
      ))}
    </ul>
  );
}

function Small({ standing, item, zone }: AnsweredItem & { zone: string }) {
  const { recorded, answer } = standing;
  const said = [
    item.limits?.text,
    recorded ? `${recorded.by} ${clockText(recorded.at, zone)}` : null,
    answer?.note ? `“${answer.note}”` : null,
  ].filter(Boolean);
  return said.length > 0 ? <small className={styles.small}>{said.join(" · ")}</small> : null;
}
