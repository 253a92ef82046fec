import type { SigningPolicy } from "@/lib/domain/access/model";
import type { Instant } from "@/lib/units/time";

/** What somebody gave to sign: who they are, and one secret. */
export const COMPONENTS = ["user-id", "pin", "password"] as const;
export type Component = (typeof COMPONENTS)[number];

/** How much the next signature asks for. */
export type Demand = "two" | "one" | "none";

/** What an open session knows of its own signatures. Instants are of the machine's clock, as everything about sessions is. */
export interface SigningSession {
  readonly policy: SigningPolicy;
  readonly idleMinutes: number;
  readonly activeAt: Instant;
  readonly fullySignedAt: Instant | null;
}

/** What comes with a command that is a signature. */
export interface GivenSignature {
  readonly userId?: string | undefined;
  readonly secret?: { readonly kind: "pin" | "password"; readonly value: string } | undefined;
}
