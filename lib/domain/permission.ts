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
  "hold-workstation": CHECKERS,
  "lift-hold": CHECKERS,
  "allow-limit": ["charge-provider", "biomedical-engineer", "manager"],
  "start-case": PROVIDERS,
  "end-case": [...PROVIDERS, "technician"],
  "close-room": ["charge-provider", "manager"],
  "open-room": ["charge-provider", "manager"],
  "import-department": SETTERS,
  "add-person": ["administrator"],
  "add-facility": ["administrator"],
  "change-roles": ["administrator"],
  "set-password": EVERYBODY,
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
