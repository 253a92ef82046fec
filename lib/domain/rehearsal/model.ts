import type { Answer } from "@/lib/domain/answer";
import type { CheckItem } from "@/lib/domain/procedure/decide";

/** A check on an imagined workstation, to practise on. Nothing of it is a record, and it never touches one. */
export interface Rehearsal {
  readonly seed: number;
  readonly questions: readonly RehearsalQuestion[];
  /** What was planted, by the question it shows in. Not for the eyes of who practises. */
  readonly planted: readonly Planted[];
}

/** A question and what the hand does for it: each act shows something only after it was done. */
export interface RehearsalQuestion extends CheckItem {
  readonly signs: readonly Sign[];
}

/** One thing that is done, and what is then seen. */
export interface Sign {
  readonly act: string;
  readonly see: string;
}

export interface Planted {
  readonly key: string;
  readonly fault: string;
  /** What was wrong, as it is said afterwards. */
  readonly wrong: string;
  /** What it would have done. */
  readonly harm: string;
  /** How many of the signs must be seen before the fault shows. */
  readonly showsAfter: number;
}

/** What is there to be seen, and the answer of somebody who looked. */
export interface Scene {
  readonly signs: readonly Sign[];
  readonly truth: Answer;
}

/** What somebody did with one question. `seen` is how many of its signs they looked at before they answered. */
export interface Practised {
  readonly key: string;
  readonly answer: Answer;
  readonly seen: number;
}

export interface FaultResult extends Planted {
  readonly title: string;
  readonly outcome: "found" | "missed" | "not-reached";
  /** Why it was missed, in a sentence. */
  readonly because: string | null;
}

/** A good item that was called bad, or a figure that is not the one that was shown. */
export interface FalseAlarm {
  readonly key: string;
  readonly title: string;
  readonly because: string;
}

export interface RehearsalResult {
  readonly faults: readonly FaultResult[];
  readonly found: number;
  readonly planted: number;
  readonly falseAlarms: readonly FalseAlarm[];
  /** Answered with signs left unseen, although nothing was wrong there: luck, not a check. */
  readonly unseen: readonly { readonly key: string; readonly title: string }[];
  readonly unanswered: readonly { readonly key: string; readonly title: string }[];
}
