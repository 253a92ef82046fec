import type { Answer } from "@/lib/domain/answer";
import type { Verdict } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { CheckKind, Meaning, Role } from "@/lib/domain/vocabulary";
import type { Instant } from "@/lib/units/time";

/** A check as decisions see it: its answers in the order given, and who signed what. */
export interface CheckState {
  readonly id: string;
  readonly kind: CheckKind;
  readonly workstationId: string;
  readonly roomId: string | null;
  readonly startedAt: Instant;
  readonly startedBy: string;
  readonly answers: readonly GivenAnswer[];
  readonly signatures: readonly {
    readonly personId: string;
    readonly role: Role;
    readonly meaning: Meaning;
    readonly at: Instant;
  }[];
  /** It says another workstation than the one looked at: its answers stand on the right one and no longer count here. */
  readonly corrected?: boolean;
}

export interface GivenAnswer {
  readonly id: string;
  readonly item: ItemId;
  readonly subject: Subject;
  readonly answer: Answer;
  readonly verdict: Verdict;
  readonly observedAt: Instant;
  readonly by: string;
}

/** The key of one question within a check: its item about its subject. */
export const answerKey = (item: ItemId, subject: Subject): string => `${item}:${subject.kind}:${subject.id}`;

/** Grows with every recorded answer and every signature; a signature says which version was seen. */
export const versionOf = (check: Pick<CheckState, "answers" | "signatures">): number =>
  check.answers.length + check.signatures.length;

export const signedAs = (check: Pick<CheckState, "signatures">, meaning: Meaning) =>
  check.signatures.find((signature) => signature.meaning === meaning) ?? null;

/** The answer that stands for each question: the last one given. */
export function standingAnswers(answers: readonly GivenAnswer[]): ReadonlyMap<string, GivenAnswer> {
  return new Map(answers.map((given) => [answerKey(given.item, given.subject), given]));
}
