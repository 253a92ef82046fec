import type { WorkstationEvidence } from "@/lib/domain/evidence";

/** A workstation about which nobody has said anything: not held, no fault, no service due. */
export const NOTHING_ON_RECORD = {
  holds: [],
  quarantine: [],
  sequestered: false,
  faults: [],
  serviceDue: [],
  serviceOpen: false,
  firstUserCheckOwedSince: null,
  recalls: [],
  allowed: [],
} as const satisfies Omit<WorkstationEvidence, "id" | "tag" | "model" | "fitted">;
