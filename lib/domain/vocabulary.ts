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
  "vaporizer-removed",
  "absorbent-changed",
  "cylinder-swapped",
  "sensor-replaced",
  "moved-in",
  "refilled",
  "circuit-changed",
  "serviced",
  "pipeline-event",
  "power-event",
  "emergency-use",
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
  "no-mechanical-ventilation",
  "intravenous-only",
  "not-vapor-free",
  "stay-on-mains",
  "service-late",
  "no-sevoflurane",
  "no-desflurane",
  "no-isoflurane",
  "no-halothane",
  "no-enflurane",
] as const;
export type Limit = (typeof LIMITS)[number];

/** Monitors that may stand in a room beside the workstation and take the place of its own. */
export const PORTABLE_MONITORS = [
  "capnograph",
  "oximeter",
  "ecg",
  "blood-pressure",
  "agent-monitor",
  "oxygen-analyzer",
] as const;
export type PortableMonitor = (typeof PORTABLE_MONITORS)[number];

/** What biomedical engineering decided about a recall or safety notice. */
export const RECALL_DECISIONS = [
  "not-assessed",
  "not-affected",
  "keep",
  "keep-with-condition",
  "pull-at-next-case",
  "pull-now",
] as const;
export type RecallDecision = (typeof RECALL_DECISIONS)[number];

/** For how long use with a limit may be allowed, shortest first. */
export const ALLOWED_FOR = ["this-list", "1-day", "3-days", "10-days"] as const;
export type AllowedFor = (typeof ALLOWED_FOR)[number];
