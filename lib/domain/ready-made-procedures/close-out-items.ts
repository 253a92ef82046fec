import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";

/** How a workstation was found in the morning, and how it is left at the end of the list. Common practice, no source. */
export const CLOSE_OUT_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "found-power",
    {
      title: "Say whether it was on",
      how: "Before you touch anything: off, on standby, or running.",
      why: "A machine that ran all night may have flowed gas and worn its battery.",
      whenItFails: "Note it; look at the flows next.",
    },
    {
      kind: "choice",
      options: [
        { value: "off", label: "Off" },
        { value: "standby", label: "On standby" },
        { value: "running", label: "Running" },
      ],
    },
  ),
  procedureItem(
    "found-gas",
    {
      title: "Say whether gas was flowing",
      how: "Before you touch anything: flowmeters, auxiliary oxygen and the bag.",
      why: "Gas that flowed all night dries the absorbent and empties cylinders.",
      whenItFails: "Shut it. Strong-base absorbent is then suspected dry: change all of it.",
    },
    yesNo("No gas flowing", "Gas was flowing"),
  ),
  procedureItem(
    "close-flows",
    {
      title: "Shut every flow",
      how: "All flow controls shut, auxiliary oxygen off, suction off, the machine off or on standby.",
      why: "Gas left on dries the absorbent overnight and empties the supply.",
      whenItFails: "Shut it at the wall and tell biomedical engineering.",
    },
    yesNo("All shut", "Cannot be shut"),
  ),
  procedureItem(
    "close-vaporizers",
    {
      title: "Fill it and turn it off",
      how: "Filled with its own agent, filler shut, dial at zero and locked.",
      why: "The morning begins with a full vaporizer and no vapor in the circuit.",
      whenItFails: "Say what is missing; it is work for the morning.",
    },
    yesNo("Filled and off", "Not filled or not off"),
    { vaporizerFitted: true },
  ),
  procedureItem(
    "close-cylinder",
    {
      title: "Shut the valve",
      how: "Valve shut by hand or key, gauge left as it is; then bleed it with the flows shut again.",
      why: "An open cylinder drains unseen, and a full gauge over it deceives.",
      whenItFails: "Take it off its yoke and plug the yoke.",
    },
    yesNo("Shut", "Cannot be shut"),
  ),
  procedureItem(
    "close-suction",
    {
      title: "Empty and reline the suction",
      how: "Canister emptied or changed, new liner and tube, regulator off.",
      why: "A full canister does not suck when it is needed first.",
      whenItFails: "Say what is missing; it is work for the morning.",
    },
    yesNo("Empty and lined", "Not done"),
    { vacuum: true },
  ),
];
