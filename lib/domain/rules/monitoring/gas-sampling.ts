import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** A wet sensor makes the ventilator guess; a loose line or trap leaks and blinds the gas monitor. */
export const gasSampling = stoppingItems({
  id: "gas-sampling",
  inBrief: "gas sampling",
  what: "Flow sensor, sample line and water trap are right",
  citation: "common practice, no source; their faults under ASA pre-anesthesia checkout 2008, items 4 and 12",
  says: {
    "flow-sensor": "Flow sensor fails",
    "sample-line": "Sample line loose or blocked",
    "water-trap": "Water trap full, loose or cracked",
  },
});
