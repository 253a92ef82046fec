import type { Procedure } from "@/lib/domain/procedure/model";
import { picked } from "@/lib/domain/ready-made-procedures/all-items";

/** The short list before every patient, after the items that ASA 2008 repeats each time. It never moves the board by itself. */
export const EACH_CASE: Procedure = {
  id: "each-case",
  name: "Check before each case",
  version: 1,
  kind: "each-case",
  citation: "ASA recommendations for pre-anesthesia checkout, 2008, items before each procedure, adapted",
  items: picked([
    "suction",
    "capnograph",
    "vaporizer-fill",
    "filler-closed",
    "absorbent-colour",
    "circuit",
    "breathing-leak",
    "valves",
    "final-state",
    "settings-confirmed",
  ]),
};

/** What the UK list repeats between cases. */
export const EACH_CASE_ISO: Procedure = {
  id: "each-case-iso",
  name: "Check between cases",
  version: 1,
  kind: "each-case",
  citation: "Association of Anaesthetists, Checking Anaesthetic Equipment 2012, between cases, adapted (from memory)",
  items: picked([
    "circuit",
    "two-bag-test",
    "vaporizer-fill",
    "filler-closed",
    "ventilator",
    "airway-equipment",
    "suction",
  ]),
};
