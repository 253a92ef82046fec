import type { ReactNode } from "react";
import type { Readiness } from "@/lib/domain/judgement";
import { MARK_SHAPES, type MarkShape } from "./mark-shapes";
import styles from "./readiness-mark.module.css";
import { READINESS_WORDS } from "./words";

export type Tone = "go" | "limit" | "stop" | "due" | "out" | "plain" | "soft";

/** The shape alone; always beside its word. */
export function Mark({ shape, size = 28 }: { shape: MarkShape; size?: number }) {
  return (
    <svg width={size} height={size} viewBox="0 0 32 32" aria-hidden="true" focusable="false">
      {MARK_SHAPES[shape]}
    </svg>
  );
}

export function MarkedWord({
  shape,
  tone,
  size,
  children,
}: {
  shape: MarkShape;
  tone: Tone;
  size?: number;
  children: ReactNode;
}) {
  return (
    <span className={`${styles.mark} ${styles[tone]}`}>
      <Mark shape={shape} size={size} />
      <span>{children}</span>
    </span>
  );
}

export const READINESS_LOOK: Record<Readiness, { shape: MarkShape; tone: Tone }> = {
  ready: { shape: "seated", tone: "go" },
  "ready-limited": { shape: "half-seated", tone: "limit" },
  "do-not-use": { shape: "barred", tone: "stop" },
  "to-check": { shape: "open-pins", tone: "due" },
  "out-of-service": { shape: "struck", tone: "out" },
};

/** Every state of a workstation has a word and a shape; colour only repeats what they say. */
export function ReadinessMark({ readiness, size }: { readiness: Readiness; size?: number }) {
  const { shape, tone } = READINESS_LOOK[readiness];
  return (
    <MarkedWord shape={shape} tone={tone} size={size}>
      {READINESS_WORDS[readiness]}
    </MarkedWord>
  );
}
