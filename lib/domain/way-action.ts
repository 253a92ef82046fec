import type { ItemId, Subject } from "@/lib/domain/items";
import type { Role } from "@/lib/domain/vocabulary";

/** Everything that people can do about a reason. A new kind is added here, in `way-clearing` and in `way-applied`. */
export const ACTION_KINDS = [
  "check",
  "recheck",
  "put-right",
  "swap-cylinder",
  "fit-cylinder",
  "fit-vaporizer",
  "change-absorbent",
  "replace-sensor",
  "bring-portable",
  "isolate-nitrous-oxide",
  "prepare-vapor-free",
  "allow",
  "lift-hold",
  "look-at-fault",
  "confirm",
  "restock",
  "assess-recall",
  "do-service",
  "release",
  "put-procedure-in-force",
  "swap-workstation",
] as const;
export type ActionKind = (typeof ACTION_KINDS)[number];

export interface ItemAbout {
  readonly item: ItemId;
  readonly subject: Subject;
}

/** One thing that somebody does, with how long it takes and who may. */
export interface Action {
  readonly kind: ActionKind;
  /** One line that says what to do. */
  readonly text: string;
  readonly minutes: number;
  readonly mayDo: readonly Role[];
  /** True where all of these roles must agree, each by another person. */
  readonly together: boolean;
  /** What is looked at or put right, and answered well at its end. */
  readonly items: readonly ItemAbout[];
  /** The part it is about. */
  readonly subject: Subject | null;
  /** What it is about where that is no part: the rule allowed, the hold lifted, the fault looked at, the yoke or mount filled. */
  readonly about: string | null;
}

/** The same action twice is one action. */
export const actionKey = ({ kind, items, subject, about }: Action): string =>
  [
    kind,
    subject === null ? "" : `${subject.kind}:${subject.id}`,
    about ?? "",
    ...items.map((one) => `${one.item}:${one.subject.id}`),
  ].join("|");
