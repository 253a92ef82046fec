import type { Role } from "@/lib/domain/vocabulary";

/**
 * What a site asks of those who sign. After 21 CFR 11.200(a)(1): the first signing of a continuous period asks for both components
 * (who, and a secret), each later one for one of them.
 */
export const SIGNING_POLICIES = ["two-then-one", "one", "none"] as const;
export type SigningPolicy = (typeof SIGNING_POLICIES)[number];

/** Which roles the values of one claim of an issuer give here. */
export interface RoleMapping {
  /** The claim's name; a dot goes one object deeper, as in "access.groups". */
  readonly claim: string;
  readonly gives: readonly { readonly value: string; readonly roles: readonly Role[] }[];
}

export interface AccessSettings {
  readonly signing: SigningPolicy;
  /** Minutes without a touch after which a screen locks. */
  readonly idleMinutes: number;
  /** Null: an issuer's claims give no roles here, an administrator does. */
  readonly mapping: RoleMapping | null;
}

/** Common practice, no source: ten minutes are longer than a self-test's watching and shorter than a coffee. */
export const DEFAULT_ACCESS: AccessSettings = { signing: "two-then-one", idleMinutes: 10, mapping: null };
export const IDLE_MINUTES = { least: 1, most: 120 } as const;

/** The settings in force: the site's own, and the defaults for what it has not chosen. */
export const accessOf = (chosen: Partial<AccessSettings>): AccessSettings => ({ ...DEFAULT_ACCESS, ...chosen });
