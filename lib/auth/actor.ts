import type { FacilityEvidence } from "@/lib/domain/evidence";
import type { Role } from "@/lib/domain/vocabulary";
import type { Scope } from "@/lib/storage/client";

/** Who acts. Roles here drive the buttons; a command reads them again inside its own transaction. */
export interface Actor {
  readonly kind: "person" | "seed";
  readonly personId: string;
  readonly name: string;
  readonly userId: string;
  readonly roles: readonly Role[];
  readonly organisationId: string;
  readonly facility: FacilityEvidence & { readonly name: string };
  readonly facilities: readonly { readonly id: string; readonly name: string }[];
  readonly sessionId: string | null;
}

export const scopeOf = (actor: Actor): Scope => ({
  organisationId: actor.organisationId,
  facilityId: actor.facility.id,
});
