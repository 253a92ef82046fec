/** The closed lists of the trade's words that evidence, rules and screens share. A new word is added here and nowhere else. */

export const SCHEMES = ["US", "ISO"] as const;
export type Scheme = (typeof SCHEMES)[number];

export const GASES = ["oxygen", "air", "nitrous-oxide"] as const;
export type Gas = (typeof GASES)[number];

export const AGENTS = ["sevoflurane", "desflurane", "isoflurane", "halothane", "enflurane"] as const;
export type Agent = (typeof AGENTS)[number];

export const LEAK_TESTS = ["bulb", "self-test", "positive-pressure", "none"] as const;
export type LeakTest = (typeof LEAK_TESTS)[number];

export const DRIVES = ["ascending-bellows", "descending-bellows", "piston", "turbine"] as const;
export type Drive = (typeof DRIVES)[number];

export const WASTE_GAS = ["active", "passive", "none"] as const;
export type WasteGas = (typeof WASTE_GAS)[number];

/** What a list may need of its room. Unknown needs mean volatile, mechanical ventilation and low flow. */
export const NEEDS = [
  "volatile",
  "nitrous-oxide",
  "low-flow",
  "mechanical-ventilation",
  "vapor-free",
  "sedation",
] as const;
export type Need = (typeof NEEDS)[number];
export const UNKNOWN_NEEDS: readonly Need[] = ["volatile", "mechanical-ventilation", "low-flow"];

export const ROLES = [
  "provider",
  "charge-provider",
  "technician",
  "biomedical-engineer",
  "supplies",
  "manager",
  "administrator",
] as const;
export type Role = (typeof ROLES)[number];

export const CHECK_KINDS = ["daily", "each-case", "provider-change", "first-user", "recheck", "close-out"] as const;
export type CheckKind = (typeof CHECK_KINDS)[number];

export const EVENT_KINDS = [
  "vaporizer-fitted",
  "absorbent-changed",
  "cylinder-swapped",
  "sensor-replaced",
  "moved-in",
  "refilled",
  "circuit-changed",
  "serviced",
  "pipeline-event",
] as const;
export type EventKind = (typeof EVENT_KINDS)[number];

/** What a signature says. */
export const MEANINGS = ["performed", "confirmed", "approved", "released"] as const;
export type Meaning = (typeof MEANINGS)[number];

/** What a limit takes away while it stands. */
export const LIMITS = [
  "no-nitrous-oxide",
  "no-air",
  "no-volatile",
  "no-low-flow",
  "no-sedation",
  "intravenous-only",
  "stay-on-mains",
  "service-late",
] as const;
export type Limit = (typeof LIMITS)[number];
