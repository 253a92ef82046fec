import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";

const bySelfTest = { unlessSelfTestCovers: true };

/** The breathing system, the ventilator, scavenging, and the state the workstation is left in. */
export const BREATHING_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "self-test",
    {
      title: "Start the self-test",
      how: "Follow the machine's screen; go on with the other items while it runs, and come back for its result.",
      why: "It measures leaks and compliance that a hand cannot.",
      whenItFails: "Reseat canister, bag, water trap and sample line, run it again. A second failure: do not use.",
    },
    yesNo("Passed", "Failed"),
    { selfTest: true },
  ),
  procedureItem(
    "vapor-free",
    {
      title: "Prepare it vapor-free",
      how: "Vaporizers off their mounts, new circuit, bag and absorbent, then flush with oxygen for the model's own time. Say how many minutes.",
      why: "A trace of a volatile agent can set off malignant hyperthermia.",
      whenItFails: "Flush on; or take another workstation.",
    },
    { kind: "number", unit: "min", least: 0, most: 600, decimals: 0 },
  ),
  procedureItem(
    "circuit",
    {
      title: "Look over circuit, mask, bag",
      how: "Complete, the right size, no hole, no plug left in; mask and spare in reach.",
      why: "A part missing is found now or with the patient asleep.",
      whenItFails: "Replace it.",
    },
    yesNo("Complete", "Missing or damaged"),
  ),
  procedureItem(
    "breathing-leak",
    {
      title: "Pressurize to 30 cmH₂O and hold",
      how: "APL shut, Y-piece blocked, flush to 30 cmH₂O, flows at minimum. Raise the flow until the pressure stays: that flow is the leak.",
      why: "A leak here makes ventilation weak and low flow impossible.",
      whenItFails: "Reseat canister, bag, water trap, sample line; test again. A second failure: do not use.",
    },
    { kind: "number", unit: "mL/min", least: 0, most: 10_000, decimals: 0 },
    bySelfTest,
    "both",
  ),
  procedureItem(
    "apl",
    {
      title: "Open and shut the APL valve",
      how: "Shut it holds 30 cmH₂O; open, the pressure falls at once to near zero.",
      why: "A valve stuck shut is a pressure injury; stuck open, nobody can ventilate by hand.",
      whenItFails: "Do not use.",
    },
    yesNo("Holds and relieves", "Sticks"),
    bySelfTest,
  ),
  procedureItem(
    "valves",
    {
      title: "Watch both one-way valves",
      how: "Breathe the test lung by hand: each disc rises in its own phase, dry and free.",
      why: "A sticking valve makes the patient breathe the same gas again.",
      whenItFails: "Dry or change the disc; a missing disc: do not use.",
    },
    yesNo("Both move freely", "Sticks or missing"),
    {},
    "both",
  ),
  procedureItem(
    "ventilator",
    {
      title: "Ventilate the test lung",
      how: "Two minutes on the ventilator: volume delivered, bellows or piston fills, pressure normal.",
      why: "It must breathe for the patient within a minute of induction.",
      whenItFails: "Do not use, unless a charge provider moves a case that breathes by itself.",
    },
    yesNo("Ventilates", "Fails"),
    bySelfTest,
  ),
  procedureItem(
    "disconnect-alarm",
    {
      title: "Pull the test lung off and wait",
      how: "The disconnection alarm sounds within its time and shows in words.",
      why: "A circuit that came apart is silent until it sounds.",
      whenItFails: "Do not use.",
    },
    yesNo("Sounds", "Silent"),
  ),
  procedureItem(
    "flow-sensor",
    {
      title: "Look at the flow sensor",
      how: "Dry, seated, no crack; volume on the screen agrees with the set one.",
      why: "A wet or cracked sensor makes the ventilator guess.",
      whenItFails: "Dry it or change it.",
    },
    yesNo("Reads right", "Fails"),
    bySelfTest,
  ),
  procedureItem(
    "scavenging-extraction",
    {
      title: "Look at waste-gas extraction",
      how: "Flow indicator in its window, reservoir bag neither flat nor full.",
      why: "Waste gas otherwise stays in the room with the staff.",
      whenItFails: "Open the regulator, check the hose. Until it extracts: no volatile, no nitrous oxide.",
    },
    yesNo("Extracts", "Weak or absent"),
    { wasteGasActive: true },
  ),
  procedureItem(
    "scavenging-relief",
    {
      title: "Flush with APL open and Y-piece blocked",
      how: "Read the airway gauge: about zero at minimum flow, and under the limit while flushing.",
      why: "A blocked relief puts its pressure on the patient's lungs.",
      whenItFails: "Do not use until it relieves.",
    },
    { kind: "number", unit: "cmH2O", least: 0, most: 100, decimals: 0 },
  ),
  procedureItem(
    "final-state",
    {
      title: "Leave it ready",
      how: "Vaporizers off, APL open, selector on bag, flows at minimum, hose reconnected, suction on, mask in place.",
      why: "A workstation left as the tests left it gives the first patient agent, pressure or no gas.",
      whenItFails: "Set it right now.",
    },
    yesNo("All set", "Something is not right"),
    {},
    "both",
  ),
];
