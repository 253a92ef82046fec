import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** A part missing is found now or with the patient asleep. */
export const circuit = stoppingItems({
  id: "circuit",
  inBrief: "breathing circuit",
  what: "Circuit, mask and bag are there, whole and of the right kind",
  citation: "FDA anesthesia apparatus checkout 1993, step 10",
  says: {
    circuit: "Circuit, mask or bag missing or damaged",
  },
});
