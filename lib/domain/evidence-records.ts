import type { ItemId, OwnItemId, Subject } from "@/lib/domain/items";
import type { RecallDecision, Role } from "@/lib/domain/vocabulary";
import type { Quantity } from "@/lib/units/quantity";
import type { LocalDate, Timestamp } from "@/lib/units/time";

/** What is on record about a workstation or a room besides looks and fitted parts. */

export interface Quarantine {
  readonly subject: Subject;
  /** What alone of the subject is quarantined, as the auxiliary flowmeter of a workstation; absent or null: all of it. */
  readonly item?: ItemId | null;
  readonly since: Timestamp;
}

export interface FaultEvidence {
  readonly id: string;
  readonly text: string;
  readonly wouldNotUse: boolean;
  readonly lookedAt: boolean;
  readonly reportedAt?: Timestamp | null;
}

export interface RecallEvidence {
  readonly id: string;
  readonly decision: RecallDecision;
  /** In words, for a workstation that is kept in use on a condition. */
  readonly condition?: string | null;
}

export interface PastFailure {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly at: Timestamp;
}

export interface SupplyEvidence {
  readonly name: string;
  readonly count: number;
  readonly par: number;
}

export interface OwedByProcedure {
  readonly item: ItemId;
  readonly subject: Subject;
  /** Asked only since then: the version in force before it did not ask this. */
  readonly since?: Timestamp;
}

/** A question that the site added, with what it does when it fails and the limits of its reading. */
export interface OwnQuestion {
  readonly item: OwnItemId;
  readonly failing: "stops" | "due";
  readonly atLeast?: Quantity;
  readonly atMost?: Quantity;
}

export interface HoldEvidence {
  readonly id: string;
  readonly by: string;
  readonly role: Role;
  readonly reason: string;
  readonly since: Timestamp;
}

export interface ServiceDue {
  readonly plan: string;
  readonly due: LocalDate;
  readonly window: { readonly from: LocalDate; readonly to: LocalDate };
}
