import type { Procedure, ProcedureItem } from "@/lib/domain/procedure/model";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { LocalDate, Timestamp } from "@/lib/units/time";

/** What people write of the next version: everything but its number and id. */
export type ProcedureText = Pick<Procedure, "name" | "citation"> & { readonly items: readonly ProcedureItem[] };

export type DraftState = "draft" | "proposed" | "approved" | "dropped";

/** The next version of one kind of check while it is written. Its revision grows with each save; whoever saved it is an author. */
export interface ProcedureDraft {
  readonly id: string;
  readonly kind: CheckKind;
  readonly text: ProcedureText;
  /** The version that was in force, or waiting, when it was begun; null when there was none. */
  readonly baseId: string | null;
  readonly revision: number;
  readonly state: DraftState;
  readonly authors: readonly string[];
  readonly savedBy: string;
  readonly savedByName: string;
  readonly savedAt: Timestamp;
  readonly inForceOn: LocalDate | null;
  readonly reason: string | null;
  readonly proposedByName: string | null;
  /** The last decline, with its reason; null when there was none. */
  readonly declinedBecause: string | null;
}
