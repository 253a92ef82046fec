import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** A stuck flush overfills lungs, a dead one cannot refill the circuit. */
export const oxygenFlush = stoppingItems({
  id: "oxygen-flush",
  inBrief: "oxygen flush",
  what: "The oxygen flush flows while it is pressed and stops when it is let go",
  citation:
    "Association of Anaesthetists 2012, session check: oxygen flush (from memory); 35 to 75 L/min in ISO 80601-2-13 (from memory)",
  says: {
    "oxygen-flush": "Oxygen flush dead or stuck",
  },
});
