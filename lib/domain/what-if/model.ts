import type { Evidence } from "@/lib/domain/evidence";
import type { Judgement } from "@/lib/domain/judgement";

/** What is asked. Nothing of it is ever written. */
export type Supposed =
  /** The oxygen pipeline fails now, behind one zone valve or everywhere. */
  | { readonly what: "pipeline-fails"; readonly zone: string | null }
  /** A workstation goes out of use. */
  | { readonly what: "workstation-out"; readonly workstationId: string }
  /** Parts are withdrawn: one by its tag or serial number, or all that share its beginning, as those of one lot do. */
  | { readonly what: "withdrawn"; readonly part: WithdrawnPart; readonly named: string };

export const WITHDRAWN_PARTS = ["vaporizer", "cylinder", "absorbent"] as const;
export type WithdrawnPart = (typeof WITHDRAWN_PARTS)[number];

/** One room as it is and as it would be: the same judge on changed evidence. */
export interface Supposition {
  readonly is: { readonly evidence: Evidence; readonly judgement: Judgement };
  readonly wouldBe: { readonly evidence: Evidence; readonly judgement: Judgement };
  /** What would be gone from it, in words. */
  readonly gone: readonly string[];
}
