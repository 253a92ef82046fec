import type { Agent } from "@/lib/domain/vocabulary";

export type PartKind = "vaporizer" | "absorbent" | "oxygen-sensor";

/** A part somebody wants to fit, with where it is now. */
export interface Candidate {
  readonly kind: PartKind;
  readonly id: string;
  readonly tag: string;
  readonly agent: Agent | null;
  readonly sensorKind: "galvanic" | "paramagnetic" | null;
  readonly storeId: string | null;
  /** It has been fitted somewhere before. */
  readonly used: boolean;
  readonly fittedTo: { readonly workstationId: string; readonly tag: string; readonly position: string } | null;
}

/** What somebody asked for, with what they saw. `candidate` is null for "the same product again". */
export interface FitAsked {
  readonly kind: PartKind;
  readonly position: string;
  readonly takesOff: string | null;
  readonly takenFrom: string | null;
  readonly agentSeen: Agent | null;
  readonly candidate: Candidate | null;
}

/** A part that is on the workstation now. */
export interface FittedPart {
  readonly id: string;
  readonly tag: string;
  readonly position: string;
}

export const PART_NAMES: Readonly<Record<PartKind, string>> = {
  vaporizer: "Vaporizer",
  absorbent: "Absorbent",
  "oxygen-sensor": "Oxygen sensor",
};
