import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** It is the warning that the oxygen supply is gone; without the cut-off nitrous oxide flows on alone. */
export const supplyFailureAlarm = stoppingItems({
  id: "supply-failure-alarm",
  inBrief: "supply alarm",
  what: "The oxygen supply failure alarm sounds and nitrous oxide is cut off when oxygen is lost",
  citation: "WHO-WFSA international standards 2018: oxygen failure alarm (from memory); ISO 80601-2-13 (from memory)",
  says: {
    "supply-failure-alarm": "Oxygen supply failure alarm or nitrous oxide cut-off fails",
  },
});
