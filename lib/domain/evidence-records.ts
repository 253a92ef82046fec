import type { ItemId, Subject } from "@/lib/domain/items";
import type { RecallDecision } from "@/lib/domain/vocabulary";
import type { Timestamp } from "@/lib/units/time";

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
