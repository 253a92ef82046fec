import type { Answer } from "@/lib/domain/answer";
import type { Trend } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { ItemLimits } from "@/lib/domain/procedure-limits";
import type { Timestamp } from "@/lib/units/time";

/** One earlier answer that measured something. */
export interface MeasuredAnswer {
  readonly at: Timestamp;
  readonly answer: Answer;
  readonly failed: boolean;
}

/** The readings of one item about one subject, oldest first, and the limits they are held against today. */
export interface TrendQuestion {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly readings: readonly MeasuredAnswer[];
  readonly limits: Pick<ItemLimits, "atLeast" | "atMost"> | null;
  readonly timeZone: string;
}

/** A trend that changed, and who keeps its readings. */
export interface TrendChange {
  readonly keeperId: string;
  readonly trend: Trend;
}
