import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";

/** What is asked right before a case, and what a session list asks beside the workstation. */
export const CASE_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "settings-confirmed",
    {
      title: "Confirm the settings for this case",
      how: "Ventilator mode, volume or pressure, rate and alarm limits are right for the next case; say that you are ready.",
      why: "The settings of the case before may harm the next one.",
      whenItFails: "Set them before anything else.",
    },
    yesNo("Confirmed", "Not yet right"),
    {},
    "not-delegated",
  ),
  procedureItem(
    "two-bag-test",
    {
      title: "Two-bag test",
      how: "A second bag on the Y-piece: ventilate by hand from bag to bag, both phases free, APL relieves; then let the ventilator do it.",
      why: "The parts were tried one by one; this tries them together.",
      whenItFails: "Look at valves, APL and circuit. Do not use until it works.",
    },
    yesNo("Both bags move", "Fails"),
  ),
  procedureItem(
    "airway-equipment",
    {
      title: "Look over the airway equipment",
      how: "Laryngoscope lights, tubes and supraglottic airways of the sizes needed, bougie, tape, syringes; the difficult-airway kit is known.",
      why: "What is missing is missed with the patient asleep.",
      whenItFails: "Fetch it before the patient comes.",
    },
    yesNo("All there", "Something is missing"),
  ),
];
