import type { ItemId, Subject } from "@/lib/domain/items";
import type { Limit, Role } from "@/lib/domain/vocabulary";
import type { Quantity } from "@/lib/units/quantity";
import type { Timestamp } from "@/lib/units/time";

/** The state of a workstation (and so of the room it stands in). */
export const READINESS = ["ready", "ready-limited", "do-not-use", "to-check", "out-of-service"] as const;
export type Readiness = (typeof READINESS)[number];

/** out: out of service · stops: do not use · limits: adds a limit · due: work, no effect on starting · note: to know. `owed` makes a room "to check". */
export const SEVERITIES = ["out", "stops", "owed", "limits", "due", "note"] as const;
export type Severity = (typeof SEVERITIES)[number];

/** What a rule concludes about one subject. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly subject: Subject;
  /** One plain sentence a person reads; measured and limit repeat its figures as data. */
  readonly text: string;
  readonly measured: Quantity | string | null;
  readonly limit: Quantity | string | null;
  readonly citation: string;
  readonly settingsVersion: number;
  /** The items that would clear it when answered well. */
  readonly items: readonly ItemId[];
  readonly takesAway: readonly Limit[];
  /** A failed gas supply under a running case: act now; anything else waits until after this case. */
  readonly supplyFailure: boolean;
  /** For a limit: allowed by somebody until then, or not yet. */
  readonly allowedUntil: Timestamp | null;
}

/** An item that must be answered (again) before the workstation can be ready. */
export interface Owed {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly because: OwedBecause;
  /** The event that made it due again, when one did. */
  readonly event: string | null;
}
export const OWED_BECAUSE = ["not-checked", "expired", "incomplete", "recheck", "read-shut", "first-user"] as const;
export type OwedBecause = (typeof OWED_BECAUSE)[number];

export interface Mark {
  readonly by: string;
  readonly role: Role;
  readonly at: Timestamp;
}

export interface Judgement {
  readonly state: Readiness;
  readonly marks: { readonly equipment: Mark | null; readonly provider: Mark | null };
  /** In order of consequence. */
  readonly reasons: readonly Finding[];
  readonly limits: readonly Limit[];
  readonly owed: readonly Owed[];
  /** Ready, and nothing that a limit takes away is needed by today's list. */
  readonly readyForList: boolean;
  readonly whenInUse: "after-this-case" | "act-now" | null;
  readonly decideBy: Timestamp | null;
  /** The earliest moment at which the clock alone changes this answer; null when it never does. */
  readonly goodUntil: Timestamp | null;
}

/** Raised whenever the same evidence could be judged differently by new code; stored with every judgement. */
export const ENGINE_VERSION = 2;
