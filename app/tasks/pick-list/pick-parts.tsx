import { Panel } from "@/app/_ui/panel";
import type { PickList } from "@/lib/schemas/work";
import styles from "./pick-list.module.css";

/** What to take along. What the stores do not have is said first and in words, before anybody walks. */
export function PickParts({ parts }: { parts: PickList["parts"] }) {
  return (
    <Panel title="Take along">
      {parts.length === 0 ? (
        <p className={styles.soft}>Nothing: for these tasks looking is the work.</p>
      ) : (
        <ul className={styles.parts}>
          {[...parts]
            .sort((left, right) => right.short - left.short)
            .map(({ what, need, stores, short }) => (
              <li key={what} className={styles.part}>
                <span className={styles.box} aria-hidden="true" />
                <span className={styles.what}>
                  <strong>{need} ×</strong> {what}
                </span>
                <span className={styles.where}>
                  {stores.length === 0
                    ? "in no store that is counted"
                    : stores.map(({ store, count }) => `${store}: ${count}`).join(", ")}
                </span>
                {short > 0 ? <strong className={styles.short}>{short} short: ask supplies first</strong> : null}
              </li>
            ))}
        </ul>
      )}
    </Panel>
  );
}
