import type { Procedure } from "@/lib/domain/procedure/model";
import { picked } from "@/lib/domain/ready-made-procedures/all-items";

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
  items: picked([
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
  ]),
};
