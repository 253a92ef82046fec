import type { Procedure } from "@/lib/domain/procedure/model";
import { picked } from "@/lib/domain/ready-made-procedures/all-items";
import { skippable } from "@/lib/domain/ready-made-procedures/item-builder";

/** Steps 1 to 9, in the list's own order: the same user may shorten them on successive cases. */
const STEPS_1_TO_9 = picked([
  "self-inflating-bag",
  "cylinder-gauge",
  "pipeline-pressure",
  "hoses",
  "vaporizer-fill",
  "filler-closed",
  "low-pressure-leak",
  "fresh-gas-hose",
  "vaporizer-interlock",
  "mains-power",
  "self-test",
  "flow-controls",
  "hypoxic-guard",
  "scavenging-extraction",
  "scavenging-relief",
  "oxygen-in-air",
  "low-oxygen-alarm",
  "oxygen-after-flush",
]);

/** Steps 10 to 14: before every case. */
const STEPS_10_TO_14 = picked([
  "circuit",
  "absorbent-colour",
  "breathing-leak",
  "apl",
  "ventilator",
  "valves",
  "capnograph",
  "oximeter",
  "ecg",
  "blood-pressure",
  "agent-monitor",
  "sample-line",
  "suction",
  "outlet-selector",
  "final-state",
]);

const citation = "FDA anesthesia apparatus checkout recommendations, 1993, fourteen steps, adapted";

/** The fourteen steps as a whole check of the day. */
export const DAILY_FDA_1993: Procedure = {
  id: "daily-fda-1993",
  name: "Machine check in fourteen steps",
  version: 1,
  kind: "daily",
  citation,
  items: [...STEPS_1_TO_9, ...STEPS_10_TO_14],
};

/** The same before each case: whoever did them on this workstation today need not repeat steps 1 to 9. */
export const EACH_CASE_FDA_1993: Procedure = {
  id: "each-case-fda-1993",
  name: "Fourteen steps before each case",
  version: 1,
  kind: "each-case",
  citation: `${citation}; steps 1 to 9 may be shortened by the same user on successive cases`,
  items: [...STEPS_1_TO_9.map(skippable), ...STEPS_10_TO_14],
};
