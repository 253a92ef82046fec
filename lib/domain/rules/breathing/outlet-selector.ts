import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** Set to the other outlet, the machine ventilates a circuit into which no fresh gas flows. */
export const outletSelector = stoppingItems({
  id: "outlet-selector",
  inBrief: "outlet selector",
  what: "The gas-outlet selector points to the circuit in use",
  citation: "Association of Anaesthetists 2012, session check: correct gas outlet (from memory)",
  says: {
    "outlet-selector": "Gas-outlet selector wrong or loose",
  },
});
