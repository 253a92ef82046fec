import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** A machine that runs on its battery stops in the middle of a case. */
export const mainsPower = stoppingItems({
  id: "mains-power",
  inBrief: "mains power",
  what: "The workstation runs on mains power",
  citation: "ASA pre-anesthesia checkout 2008, item 3; FDA anesthesia apparatus checkout 1993, step 6",
  says: {
    "mains-power": "No mains power",
  },
});
