import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { procedureItem, yesNo } from "@/lib/domain/ready-made-procedures/item-builder";
import type { Scheme } from "@/lib/domain/vocabulary";

const suction = (how: string, unit: "mmHg" | "kPa", most: number, scheme: Scheme): ProcedureItem =>
  procedureItem(
    "suction",
    {
      title: "Occlude the suction and read its gauge",
      how,
      why: "An airway that fills and cannot be cleared is lost.",
      whenItFails: "Check canister lid and line; then another regulator or outlet.",
    },
    { kind: "number", unit, least: 0, most, decimals: 0 },
    { vacuum: true, scheme },
    "both",
  );

/** What the room itself must have, whatever workstation stands in it. */
export const ROOM_ITEMS: readonly ProcedureItem[] = [
  procedureItem(
    "self-inflating-bag",
    {
      title: "Find the self-inflating bag and squeeze it",
      how: "Block the outlet and squeeze: it must hold. Let go: it must refill by itself, with mask and reservoir in place.",
      why: "It ventilates the patient when the workstation, its gas or its power cannot.",
      whenItFails: "Fetch another bag before anything else.",
    },
    yesNo("There and works", "Absent or fails"),
    {},
    "both",
  ),
  procedureItem(
    "separate-oxygen",
    {
      title: "Find the oxygen cylinder away from the machine",
      how: "Open it for a moment: pressure on its gauge, flow at its outlet, regulator tight. Shut it again.",
      why: "The self-inflating bag needs oxygen that does not come through the workstation.",
      whenItFails: "Bring a full cylinder with a regulator.",
    },
    yesNo("Cylinder and regulator ready", "Absent, low or fails"),
    {},
    "both",
  ),
  procedureItem(
    "cylinder-key",
    {
      title: "Find the cylinder key",
      how: "It hangs on the workstation or beside the cylinder, and fits the valves.",
      why: "A full cylinder that nobody can open is no reserve.",
      whenItFails: "Fetch a key and chain it where it belongs.",
    },
    yesNo("In its place", "Missing"),
  ),
  suction(
    "Full on, tube blocked with the thumb, read. Catheter and canister there, line reaches the head.",
    "mmHg",
    760,
    "US",
  ),
  suction(
    "Full on, tube blocked with the thumb, read kPa below ambient. Catheter and liner there, line reaches the head.",
    "kPa",
    101,
    "ISO",
  ),
  procedureItem(
    "pipeline-pressure",
    {
      title: "Read the gauge with the hose connected",
      how: "Read the pipeline gauge on the workstation with every cylinder shut.",
      why: "Too little starves the machine; too much damages it and means trouble at the plant.",
      whenItFails: "Tell the charge provider and the plant at once: other rooms on this zone may have the same.",
    },
    { kind: "number", unit: "site-pressure", least: 0, most: 200, decimals: 0 },
    {},
    "both",
  ),
  procedureItem(
    "pipeline-identity",
    {
      title: "Prove which gas comes out of the wall",
      how: "Cylinders shut, only this pipeline flowing: the oxygen analyzer must show over 90 % on oxygen, 21 % on air, near zero on nitrous oxide.",
      why: "After work on the pipes a gauge proves pressure, and not which gas.",
      whenItFails: "Disconnect the hose, use cylinders, tell the plant and every room on this zone.",
    },
    yesNo("The right gas", "Another gas or unclear"),
  ),
];
