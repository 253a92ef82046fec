import type { Procedure, ProcedureItem } from "@/lib/domain/procedure/model";
import { ALL_ITEMS, picked } from "@/lib/domain/ready-made-procedures/all-items";
import { procedureItem } from "@/lib/domain/ready-made-procedures/item-builder";

const suction: ProcedureItem = procedureItem(
  "suction",
  {
    title: "Occlude the suction and read its gauge",
    how: "Full on, tube blocked with the thumb, read. Catheter and canister there, line reaches the head.",
    why: "An airway that fills and cannot be cleared is lost.",
    whenItFails: "Check canister lid and line; then another regulator or outlet.",
  },
  { kind: "number", unit: "mmHg", least: 0, most: 760, decimals: 0 },
  { vacuum: true },
  "both",
);

/**
 * A daily check for the US scheme, after the fifteen items of ASA 2008 with the tests of FDA 1993: what saves a life without the
 * workstation first, then the self-test while hands are free for the rest, the sensor before the leak tests, the final state last.
 */
export const DAILY_US: Procedure = {
  id: "daily-us",
  name: "Daily machine check",
  version: 1,
  kind: "daily",
  citation:
    "ASA recommendations for pre-anesthesia checkout, 2008, adapted; limits from FDA anesthesia apparatus checkout, 1993",
  items: picked(
    [
      "self-inflating-bag",
      "separate-oxygen",
      "cylinder-key",
      "suction",
      "mains-power",
      "self-test",
      "capnograph",
      "cylinder-gauge",
      "pipeline-pressure",
      "vaporizer-fill",
      "vaporizer-interlock",
      "oxygen-in-air",
      "low-oxygen-alarm",
      "low-pressure-leak",
      "fresh-gas-hose",
      "hypoxic-guard",
      "oxygen-flush",
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
