import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** It must breathe for the patient within a minute of induction, and say so when the circuit came apart. */
export const ventilator = stoppingItems({
  id: "ventilator",
  inBrief: "ventilator",
  what: "The ventilator delivers, and its disconnection alarm sounds",
  citation: "FDA anesthesia apparatus checkout 1993, step 12",
  says: {
    ventilator: "Ventilator fails",
    "disconnect-alarm": "Disconnection alarm silent",
  },
});
