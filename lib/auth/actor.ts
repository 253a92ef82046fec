import type { SigningPolicy } from "@/lib/domain/access/model";
import type { FacilityEvidence } from "@/lib/domain/evidence";
import type { Role } from "@/lib/domain/vocabulary";
import type { Scope } from "@/lib/storage/client";

/** What the open session of a person knows of itself. */
export interface ActorSession {
  readonly locked: boolean;
  readonly signing: SigningPolicy;
  readonly idleMinutes: number;
  readonly hasPin: boolean;
  readonly hasPassword: boolean;
  readonly method: "password" | "issuer";
  readonly createdAt: number;
  readonly deviceHash: string | null;
}

/** What a program may do with the token it came with; never more than the person may who issued it. */
export interface ActorToken {
  readonly id: string;
  readonly name: string;
  readonly reads: boolean;
  readonly commands: readonly string[];
}

/** Who acts. Roles here drive the buttons; a command reads them again inside its own transaction. */
export interface Actor {
  readonly kind: "person" | "seed" | "token";
  readonly personId: string;
  readonly name: string;
  readonly userId: string;
  readonly roles: readonly Role[];
  readonly organisationId: string;
  readonly facility: FacilityEvidence & { readonly name: string };
  readonly facilities: readonly { readonly id: string; readonly name: string }[];
  readonly sessionId: string | null;
  readonly session?: ActorSession;
  readonly token?: ActorToken;
}

export const scopeOf = (actor: Actor): Scope => ({
  organisationId: actor.organisationId,
  facilityId: actor.facility.id,
});
