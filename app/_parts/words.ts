import type { CheckKind, Limit, Need, Role } from "@/lib/domain/vocabulary";
import { GAS_NAMES, READINESS_NAMES } from "@/lib/domain/wording";

/** The product's words for the closed lists of the trade, one table each, so that a new entry does not compile without its word. */
export const READINESS_WORDS = READINESS_NAMES;

export const ROLE_WORDS: Record<Role, string> = {
  provider: "provider",
  "charge-provider": "charge provider",
  technician: "technician",
  "biomedical-engineer": "biomedical engineer",
  supplies: "supplies",
  manager: "manager",
  administrator: "administrator",
};

export const GAS_WORDS = GAS_NAMES;

export const LIMIT_WORDS: Record<Limit, string> = {
  "no-nitrous-oxide": "no nitrous oxide",
  "no-air": "no air",
  "no-volatile": "no volatile agent",
  "no-low-flow": "no low flow",
  "no-sedation": "no sedation cases",
  "no-mechanical-ventilation": "no mechanical ventilation",
  "intravenous-only": "intravenous only",
  "not-vapor-free": "not vapor-free",
  "stay-on-mains": "stay on mains",
  "service-late": "service late",
  "no-sevoflurane": "no sevoflurane",
  "no-desflurane": "no desflurane",
  "no-isoflurane": "no isoflurane",
  "no-halothane": "no halothane",
  "no-enflurane": "no enflurane",
};

export const NEED_WORDS: Record<Need, string> = {
  volatile: "volatile agent",
  "nitrous-oxide": "nitrous oxide",
  "low-flow": "low flow",
  "mechanical-ventilation": "ventilator",
  "vapor-free": "vapor-free",
  sedation: "sedation",
};

export const CHECK_KIND_WORDS: Record<CheckKind, string> = {
  daily: "daily check",
  "each-case": "each-case check",
  "provider-change": "check at a change of provider",
  "first-user": "first-user check",
  recheck: "recheck",
  "close-out": "close-out",
};

/** "a technician", "a charge provider or a manager": who may, in words. */
export function rolesInWords(roles: readonly Role[], joint: "and" | "or" = "or"): string {
  const words = roles.map((role) => ROLE_WORDS[role]);
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} ${joint} ${last}`;
}
