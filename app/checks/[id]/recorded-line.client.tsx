"use client";

import { answerWords } from "@/app/_parts/answer/answer-words";
import { whenText } from "@/app/_parts/format";
import { useSession } from "@/app/_parts/session.client";
import { classNames } from "@/app/_ui/class-names";
import type { CheckItemView } from "@/lib/schemas/check";
import { type CheckState, type ItemStanding, standingOf } from "./check-state";
import { ItemMark } from "./item-mark";
import styles from "./item-panel.module.css";

const VERDICTS: Record<ItemStanding["state"], string> = {
  open: "",
  typed: "",
  waiting: "On its way.",
  passing: "Passes.",
  failing: "Fails, and counts from now on.",
  noted: "Noted.",
};

/** What was recorded, and only now what it was before: an earlier answer beside an empty field would be copied, not read. */
export function RecordedLine({ state, item }: { state: CheckState; item: CheckItemView }) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const standing = standingOf(state, item);
  if (!standing.answer) return null;
  const { recorded } = standing;
  const failing = standing.state === "failing";
  return (
    <div className={classNames(styles.recorded, failing && styles.failing)}>
      <ItemMark state={standing.state} />
      <div>
        <p>
          <strong>{answerWords(standing.answer, item.form)}.</strong> {VERDICTS[standing.state]}
        </p>
        {recorded?.worth ? <p>{recorded.worth}</p> : null}
        {recorded?.since ? <p>{recorded.since}</p> : null}
        {failing && item.whenItFails ? <p>{item.whenItFails}</p> : null}
        {recorded ? (
          <p className={styles.soft}>
            {recorded.by}, {whenText(recorded.at, state.view.at, zone)}
            {recorded.previous
              ? ` · before: ${answerWords(recorded.previous.answer, item.form)}, ${whenText(recorded.previous.at, state.view.at, zone)}`
              : ""}
          </p>
        ) : null}
      </div>
    </div>
  );
}
