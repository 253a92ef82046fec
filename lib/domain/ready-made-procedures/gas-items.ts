import { COLOUR_LABELS, FILL_LABELS } from "@/lib/domain/choices";
import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";

const leakWords = {
  why: "A leak between flow controls and outlet thins gas and agent, and can leave a patient awake.",
  whenItFails: "Tighten filler caps and reseat vaporizers, test again. If it still fails, do not use.",
};

/** The low-pressure part of the gas path: flow controls, vaporizers, common gas outlet. */
export const GAS_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "vaporizer-fill",
    {
      title: "Read the level",
      how: "Look at the sight glass at eye height; choose the mark that it has at least reached.",
      why: "A vaporizer that runs empty in a case wakes the patient.",
      whenItFails: "Fill it with its own agent and shut the filler.",
    },
    { kind: "choice", options: FILL_LABELS },
    { vaporizerFitted: true },
  ),
  procedureItem(
    "vaporizer-seated",
    {
      title: "Seat and lock it",
      how: "Level on its mount, lock engaged; it must not lift off when pulled.",
      why: "A crooked vaporizer leaks, and its agent goes into the room.",
      whenItFails: "Reseat it; check the seals on the mount.",
    },
    yesNo("Level and locked", "Not seated"),
    { vaporizerFitted: true },
  ),
  procedureItem(
    "filler-closed",
    {
      title: "Shut the filler",
      how: "Filler and drain screwed shut by hand, the right agent on the label.",
      why: "An open filler leaks gas while the vaporizer is on.",
      whenItFails: "Shut it; change a damaged seal.",
    },
    yesNo("Shut", "Open or damaged"),
    { vaporizerFitted: true },
  ),
  procedureItem(
    "vaporizer-interlock",
    {
      title: "Try to turn on two vaporizers",
      how: "With one on, the others must stay locked. Turn all off again.",
      why: "Two agents at once are an overdose.",
      whenItFails: "Do not use. Take all but one vaporizer off only on the word of biomedical engineering.",
    },
    yesNo("Only one turns on", "Two turn on"),
    { vaporizerFitted: true },
  ),
  procedureItem(
    "low-pressure-leak",
    {
      title: "Suction bulb on the common gas outlet",
      how: "Machine off, flows shut. Squeeze the bulb flat on the outlet, start the clock and watch until it fills or the time is over. Repeat with each vaporizer on.",
      ...leakWords,
    },
    { kind: "timed", seconds: 10, what: "the bulb stays flat" },
    { leakTest: ["bulb"] },
  ),
  procedureItem(
    "low-pressure-leak",
    {
      title: "Low-pressure leak from the self-test",
      how: "Take the number that the self-test shows, with each vaporizer on in turn where the machine asks for it.",
      ...leakWords,
    },
    { kind: "number", unit: "mL/min", least: 0, most: 10_000, decimals: 0 },
    { leakTest: ["self-test"], unlessSelfTestCovers: true },
  ),
  procedureItem(
    "low-pressure-leak",
    {
      title: "Leak at positive pressure by hand",
      how: "Vaporizer on, outlet to the test gauge at 30 cmH₂O: raise the flow until the pressure stays. That flow is the leak.",
      ...leakWords,
    },
    { kind: "number", unit: "mL/min", least: 0, most: 10_000, decimals: 0 },
    { leakTest: ["positive-pressure"] },
  ),
  procedureItem(
    "fresh-gas-hose",
    {
      title: "Put the fresh-gas hose back",
      how: "Push it onto the outlet and lock it; tug.",
      why: "A hose forgotten after the bulb test gives the patient no fresh gas.",
      whenItFails: "Reconnect it; change a hose that does not lock.",
    },
    yesNo("On and locked", "Off or loose"),
    { leakTest: ["bulb"] },
  ),
  procedureItem(
    "flow-controls",
    {
      title: "Run every flow up and down",
      how: "Smooth over the whole range, floats turn, each one falls to zero or to its minimum.",
      why: "A sticking control or float lies about the mixture.",
      whenItFails: "Do not use. Call biomedical engineering.",
    },
    yesNo("Smooth", "Sticks or lies"),
  ),
  procedureItem(
    "hypoxic-guard",
    {
      title: "Try for a hypoxic mixture",
      how: "Nitrous oxide up, then oxygen down: oxygen follows or nitrous oxide is held back, never less than 25 % oxygen.",
      why: "It is what stands between a turned knob and a patient without oxygen.",
      whenItFails: "Do not use. Call biomedical engineering.",
    },
    yesNo("Oxygen stays at 25 % or more", "Oxygen falls below"),
    { nitrousOxideAtHand: true },
  ),
  procedureItem(
    "outlet-selector",
    {
      title: "Set the gas-outlet selector",
      how: "Set to the circuit that will be used; the machine shows the same.",
      why: "At the wrong outlet the patient gets no fresh gas.",
      whenItFails: "Set it. If it does not hold, do not use.",
    },
    yesNo("Right outlet", "Wrong or loose"),
    { outletSelector: true },
  ),
  procedureItem(
    "absorbent-colour",
    {
      title: "Look at the absorbent",
      how: "Through the canister wall: how far up has the colour changed? Choose the next mark up.",
      why: "Spent absorbent lets carbon dioxide back to the patient.",
      whenItFails: "Change the charge, seat the canister, run the leak test again.",
    },
    { kind: "choice", options: COLOUR_LABELS },
    { indicatorAbsorbent: true },
  ),
  procedureItem(
    "absorbent-co2",
    {
      title: "Read inspired carbon dioxide",
      how: "From the capnogram's baseline with the circuit in use.",
      why: "It says what the dye only suggests.",
      whenItFails: "Raise fresh gas, change the absorbent, look at the valves.",
    },
    { kind: "number", unit: "%", least: 0, most: 10, decimals: 1 },
  ),
  procedureItem(
    "absorbent-dry",
    {
      title: "Look for reasons why absorbent may be dry",
      how: "Gas flowed for hours or unattended, or the machine stood for days with a strong-base absorbent.",
      why: "Dry strong-base absorbent makes carbon monoxide and heat from volatile agents.",
      whenItFails: "Change all of it, not one canister.",
    },
    yesNo("No reason to think so", "Suspected dry"),
  ),
];
