import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** What the flow controls say is what the patient gets. */
export const flowControls = stoppingItems({
  id: "flow-controls",
  inBrief: "flow controls",
  what: "Flow controls move smoothly over their range and shut",
  citation: "FDA anesthesia apparatus checkout 1993, step 7",
  says: {
    "flow-controls": "Flow controls fail",
  },
});
