import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** A hose half seated holds until somebody rolls the machine; a fresh-gas hose left off after the bulb test sends the gas into the room. */
export const hoses = stoppingItems({
  id: "hoses",
  inBrief: "hoses",
  what: "Supply hoses are right and tight, and the fresh-gas hose is back in its place after the bulb test",
  citation: "FDA anesthesia apparatus checkout 1993, step 3; Association of Anaesthetists 2012: tug test (from memory)",
  says: {
    hoses: "Supply hoses not right",
    "fresh-gas-hose": "Fresh-gas hose not reconnected",
  },
});
