import type { MarkShape } from "@/app/_parts/mark-shapes";
import { Mark } from "@/app/_parts/readiness-mark";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { Severity } from "@/lib/domain/judgement";
import styles from "./tasks.module.css";

/** What the reason behind a task does to its room: the room's own shape for it, and the word. */
const LOOK: Record<Severity, { readonly shape: MarkShape; readonly word: string }> = {
  out: { shape: "struck", word: "Out of service" },
  stops: { shape: "barred", word: "Do not use" },
  owed: { shape: "open-pins", word: "To check" },
  limits: { shape: "half-seated", word: "Ready, limited" },
  due: { shape: "closed", word: "Due" },
  note: { shape: "closed", word: "To know" },
};

export function SeverityMark({ severity }: { severity: Severity }) {
  const { shape, word } = LOOK[severity];
  return (
    <span className={styles.mark}>
      <Mark shape={shape} size={26} />
      <VisuallyHidden>{word}: </VisuallyHidden>
    </span>
  );
}
