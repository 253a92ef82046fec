import type { Role } from "@/lib/domain/vocabulary";

/**
 * Who may do what: one table of data that drives the buttons, the server and a test over every cell.
 * Source: common practice, no source; the split of performing, confirming and releasing follows the ASA 2008 list's responsible parties (from memory).
 */
const EVERYBODY: readonly Role[] = [
  "provider",
  "charge-provider",
  "technician",
  "biomedical-engineer",
  "supplies",
  "manager",
  "administrator",
];
const CHECKERS: readonly Role[] = ["technician", "provider", "charge-provider", "biomedical-engineer"];
const PROVIDERS: readonly Role[] = ["provider", "charge-provider"];
const SETTERS: readonly Role[] = ["administrator", "manager"];
/** Limits are set by two of these: one proposes, another one approves. */
const RULE_KEEPERS: readonly Role[] = ["manager", "administrator", "biomedical-engineer", "charge-provider"];

export const PERMISSIONS = {
  "start-check": CHECKERS,
  "save-draft": CHECKERS,
  "record-answers": CHECKERS,
  "sign-check": CHECKERS,
  "confirm-check": PROVIDERS,
  "claim-task": CHECKERS,
  "give-back-task": CHECKERS,
  "swap-cylinder": ["technician", "biomedical-engineer", "supplies"],
  "finish-task": CHECKERS,
  "claim-tasks": CHECKERS,
  "start-task": CHECKERS,
  "pause-task": CHECKERS,
  "hand-over-task": CHECKERS,
  "take-over-task": CHECKERS,
  "cannot-do-task": CHECKERS,
  "escalate-task": EVERYBODY,
  "acknowledge-escalation": EVERYBODY,
  "pass-on-escalation": EVERYBODY,
  "add-channel": EVERYBODY,
  "remove-channel": EVERYBODY,
  "test-channel": EVERYBODY,
  "choose-summaries": EVERYBODY,
  "take-over-check": CHECKERS,
  "correct-workstation": CHECKERS,
  "start-self-test": CHECKERS,
  "enter-paper-check": [...CHECKERS, "manager"],
  "swap-workstation": ["technician", "biomedical-engineer", "charge-provider"],
  "fit-part": CHECKERS,
  "remove-part": CHECKERS,
  "report-fault": EVERYBODY,
  "look-at-fault": ["technician", "biomedical-engineer"],
  "use-in-emergency": PROVIDERS,
  "change-provider": PROVIDERS,
  "set-duty": ["charge-provider", "manager", "administrator"],
  "import-duty": ["charge-provider", "manager", "administrator"],
  "hold-workstation": CHECKERS,
  "lift-hold": CHECKERS,
  "allow-limit": ["charge-provider", "biomedical-engineer", "manager"],
  "revoke-allowance": ["charge-provider", "biomedical-engineer", "manager"],
  "raise-event": EVERYBODY,
  "return-to-service": CHECKERS,
  "end-event": ["charge-provider", "biomedical-engineer", "manager"],
  "request-vapor-free": PROVIDERS,
  "withdraw-vapor-free": PROVIDERS,
  "prepare-vapor-free": ["technician", "biomedical-engineer", "provider", "charge-provider"],
  "start-case": PROVIDERS,
  "end-case": [...PROVIDERS, "technician"],
  "close-room": ["charge-provider", "manager"],
  "open-room": ["charge-provider", "manager"],
  "import-department": SETTERS,
  "set-place": SETTERS,
  "set-room": SETTERS,
  "add-rooms": SETTERS,
  "retire-room": SETTERS,
  "set-model": [...SETTERS, "biomedical-engineer"],
  "set-workstation": [...SETTERS, "biomedical-engineer"],
  "retire-workstation": [...SETTERS, "biomedical-engineer"],
  "add-part": [...SETTERS, "biomedical-engineer", "supplies"],
  "set-weekly-template": [...SETTERS, "charge-provider"],
  "set-list": [...SETTERS, "charge-provider"],
  "set-site": SETTERS,
  "propose-rules": RULE_KEEPERS,
  "approve-rules": RULE_KEEPERS,
  "decline-rules": RULE_KEEPERS,
  "draft-procedure": RULE_KEEPERS,
  "save-procedure": RULE_KEEPERS,
  "propose-procedure": RULE_KEEPERS,
  "drop-procedure": RULE_KEEPERS,
  "approve-procedure": RULE_KEEPERS,
  "decline-procedure": RULE_KEEPERS,
  "register-device": SETTERS,
  "revoke-device": SETTERS,
  "add-person": ["administrator"],
  "add-facility": ["administrator"],
  "change-roles": ["administrator"],
  "give-password": ["administrator"],
  "set-password": EVERYBODY,
  "set-pin": EVERYBODY,
  "clear-pin": ["administrator"],
  "set-access": ["administrator"],
  "bind-identity": ["administrator"],
  "unbind-identity": ["administrator"],
  "issue-token": ["administrator"],
  "revoke-token": ["administrator"],
  "renew-head-key": ["administrator"],
} as const satisfies Record<string, readonly Role[]>;

export type CommandName = keyof typeof PERMISSIONS;

export function may(roles: readonly Role[], command: CommandName): boolean {
  const allowed: readonly Role[] = PERMISSIONS[command];
  return roles.some((role) => allowed.includes(role));
}

/** The role a person acts in: the first of theirs that the command allows, in the table's order. */
export function actingRole(roles: readonly Role[], command: CommandName): Role | null {
  const allowed: readonly Role[] = PERMISSIONS[command];
  return allowed.find((role) => roles.includes(role)) ?? null;
}

/** What no program is given, whoever issues its token: signatures, and all that decides who gets in. */
const NEVER_BY_TOKEN: ReadonlySet<CommandName> = new Set<CommandName>([
  "sign-check",
  "finish-task",
  "confirm-check",
  "allow-limit",
  "approve-rules",
  "approve-procedure",
  "set-password",
  "give-password",
  "set-pin",
  "clear-pin",
  "set-access",
  "bind-identity",
  "unbind-identity",
  "issue-token",
  "revoke-token",
  "renew-head-key",
  // Its file of people gives roles.
  "import-department",
  "add-person",
  "change-roles",
  "add-facility",
  "save-draft",
  "register-device",
  "revoke-device",
]);
export const mayByToken = (command: CommandName): boolean => !NEVER_BY_TOKEN.has(command);
