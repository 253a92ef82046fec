import type { Procedure, ProcedureItem } from "@/lib/domain/procedure/model";
import { ALL_ITEMS, picked } from "@/lib/domain/ready-made-procedures/all-items";
import { procedureItem } from "@/lib/domain/ready-made-procedures/item-builder";

const suction: ProcedureItem = procedureItem(
  "suction",
  {
    title: "Occlude the suction and read its gauge",
    how: "Full on, tube blocked with the thumb, read kPa below ambient. Catheter and liner there, line reaches the head.",
    why: "An airway that fills and cannot be cleared is lost.",
    whenItFails: "Check liner lid and line; then another regulator or outlet.",
  },
  { kind: "number", unit: "kPa", least: 0, most: 101, decimals: 0 },
  { vacuum: true },
  "both",
);

/** The start-of-session check for the ISO scheme, after the session list of the Association of Anaesthetists. */
export const DAILY_ISO: Procedure = {
  id: "daily-iso",
  name: "Session check",
  version: 1,
  kind: "daily",
  citation: "Association of Anaesthetists, Checking Anaesthetic Equipment 2012, session check, adapted (from memory)",
  items: picked(
    [
      "self-inflating-bag",
      "separate-oxygen",
      "cylinder-key",
      "mains-power",
      "battery",
      "self-test",
      "pipeline-pressure",
      "hoses",
      "cylinder-gauge",
      "flow-controls",
      "hypoxic-guard",
      "oxygen-flush",
      "suction",
      "capnograph",
      "oxygen-in-air",
      "low-oxygen-alarm",
      "vaporizer-fill",
      "vaporizer-interlock",
      "low-pressure-leak",
      "fresh-gas-hose",
      "oxygen-after-flush",
      "outlet-selector",
      "absorbent-colour",
      "circuit",
      "breathing-leak",
      "apl",
      "valves",
      "ventilator",
      "scavenging-extraction",
      "final-state",
    ],
    [...ALL_ITEMS, suction],
  ),
};
