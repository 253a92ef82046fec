import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";

/** Power, and the high-pressure and intermediate-pressure parts of the gas path. */
export const SUPPLY_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "mains-power",
    {
      title: "Switch on and look for mains power",
      how: "Plugged into a wall socket and not into an extension; the mains light is on.",
      why: "A machine that runs on its battery stops in the middle of a case.",
      whenItFails: "Another socket; then another workstation.",
    },
    yesNo("On mains", "No mains or fault"),
  ),
  procedureItem(
    "battery",
    {
      title: "Look at the battery",
      how: "The battery sign shows charged, with no fault message.",
      why: "A power failure lasts longer than the generator needs to start.",
      whenItFails: "Stay on mains and call biomedical engineering.",
    },
    yesNo("Charged", "Not charged or fault"),
  ),
  procedureItem(
    "cylinder-gauge",
    {
      title: "Open, read, shut",
      how: "Open the valve slowly, read the gauge, shut the valve again. Say both: whether it was open when read, and whether it is shut.",
      why: "It is what is left when the pipeline fails. Shut, the gauge shows trapped pressure, and an open cylinder drains unseen.",
      whenItFails: "Swap the cylinder: one washer, opened slowly, read, shut.",
    },
    { kind: "gauge", unit: "site-pressure" },
    {},
    "both",
  ),
  procedureItem(
    "yoke-leak",
    {
      title: "Shut the valve and watch the gauge",
      how: "Open, shut, then one minute with all flows off: the needle must not fall, and nothing must hiss.",
      why: "A leaking yoke empties the reserve before anybody needs it.",
      whenItFails: "Clean the seat, one new washer, tighten. If it still leaks, this cylinder does not count.",
    },
    yesNo("Tight", "Falls or hisses"),
  ),
  procedureItem(
    "hoses",
    {
      title: "Tug every supply hose",
      how: "Wall and machine end: seated, locked, right colour, no kink, no hiss.",
      why: "A hose half seated holds until somebody rolls the machine.",
      whenItFails: "Reseat it; change a damaged hose.",
    },
    yesNo("All tight", "Loose or damaged"),
  ),
  procedureItem(
    "supply-failure-alarm",
    {
      title: "Take oxygen away and listen",
      how: "Oxygen cylinders shut and hose disconnected, a little flow to bleed the pressure: the alarm sounds and nitrous oxide stops. Reconnect.",
      why: "It is the warning that the oxygen supply is gone.",
      whenItFails: "Do not use. Call biomedical engineering.",
    },
    yesNo("Alarm and cut-off work", "Either one fails"),
  ),
  procedureItem(
    "oxygen-flush",
    {
      title: "Press the oxygen flush",
      how: "Strong flow while pressed, none after letting go. Never flush into a closed circuit on a patient.",
      why: "A dead flush cannot refill the circuit; a stuck one overfills lungs.",
      whenItFails: "Do not use. Call biomedical engineering.",
    },
    yesNo("Flows and stops", "Dead or sticks"),
  ),
  procedureItem(
    "nitrous-oxide-isolated",
    {
      title: "Isolate nitrous oxide",
      how: "Hose off the wall and hung up, cylinder off its yoke and the yoke plugged, flow control shut and marked.",
      why: "Without its guard, nitrous oxide must not be able to flow at all.",
      whenItFails: "Do not use.",
    },
    yesNo("Isolated", "Not isolated"),
    { nitrousOxideAtHand: true },
  ),
  procedureItem(
    "label",
    {
      title: "Look for the service label and the stickers",
      how: "Last and next service can be read, and the number of the workstation; warnings are in their place.",
      why: "Somebody before the machine must know without asking.",
      whenItFails: "Tell biomedical engineering; the machine may be used.",
    },
    yesNo("All there", "Missing or unreadable"),
  ),
  procedureItem(
    "auxiliary-oxygen",
    {
      title: "Open the auxiliary oxygen flowmeter",
      how: "Float rises smoothly over its range and falls to zero; the nipple is there.",
      why: "Sedation and recovery breathe from it, also with the machine switched off.",
      whenItFails: "No sedation cases here; use the separate cylinder.",
    },
    yesNo("Works", "Fails or absent"),
  ),
];
