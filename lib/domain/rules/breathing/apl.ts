import { stoppingItems } from "@/lib/domain/rules/item-rule";

/** Stuck shut it is a pressure injury; stuck open, nobody can ventilate by hand. */
export const apl = stoppingItems({
  id: "apl",
  inBrief: "APL valve",
  what: "The APL valve holds pressure shut and relieves it open",
  citation: "FDA anesthesia apparatus checkout 1993, step 11; ASA pre-anesthesia checkout 2008, item 12 (from memory)",
  says: {
    apl: "APL valve fails",
  },
});
