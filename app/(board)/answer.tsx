import { useSay } from "@/app/_parts/say.client";
import { classNames } from "@/app/_ui/class-names";
import { answerSentence } from "@/lib/domain/morning";
import { sayAround } from "@/lib/domain/site-words";
import type { BoardRow } from "@/lib/schemas/board";
import type { Instant } from "@/lib/units/time";
import styles from "./board.module.css";

/** The answer first, as a sentence. Spoken again when it changes. */
export function Answer({ rooms, now, zone }: { rooms: readonly BoardRow[]; now: Instant; zone: string }) {
  const { parts } = answerSentence(rooms, now, zone);
  const say = useSay();
  const names = rooms.map(({ name }) => name);
  return (
    <p className={styles.answer} aria-live="polite" aria-atomic="true">
      {parts.map(({ text, tone }) => (
        <span key={text} className={classNames(tone !== "plain" && styles[tone])}>
          {sayAround(say, text, names)}{" "}
        </span>
      ))}
    </p>
  );
}
