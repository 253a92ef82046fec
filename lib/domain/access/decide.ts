import type { AccessSettings, RoleMapping } from "@/lib/domain/access/model";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { ROLES, type Role } from "@/lib/domain/vocabulary";

/** A site's settings of who gets in. A mapping that gives nobody anything would lock everybody out who comes by the issuer. */
export function decideAccess(asked: AccessSettings): Outcome<AccessSettings, "invalid"> {
  const { mapping } = asked;
  if (!mapping) return done(asked);
  const values = mapping.gives.map(({ value }) => value);
  const twice = values.find((value, place) => values.indexOf(value) !== place);
  if (twice !== undefined)
    return refused(
      "invalid",
      `The value ${twice} stands in the mapping twice. Put its roles into one line.`,
      "mapping",
    );
  return done(asked);
}

/** The roles that somebody's claims give, in the order of the list of roles. Values that the mapping does not name give none. */
export function rolesFromClaims({ claim, gives }: RoleMapping, claims: Readonly<Record<string, unknown>>): Role[] {
  const held = valuesOf(claimAt(claims, claim));
  const given = new Set(gives.flatMap(({ value, roles }) => (held.includes(value) ? roles : [])));
  return ROLES.filter((role) => given.has(role));
}

/** The claim by its whole name first: issuers use names with dots, too. */
function claimAt(claims: Readonly<Record<string, unknown>>, claim: string): unknown {
  if (Object.hasOwn(claims, claim)) return claims[claim];
  return claim
    .split(".")
    .reduce<unknown>(
      (value, key) =>
        value !== null && typeof value === "object" && Object.hasOwn(value, key)
          ? (value as Readonly<Record<string, unknown>>)[key]
          : undefined,
      claims,
    );
}

const valuesOf = (claim: unknown): readonly string[] => {
  if (typeof claim === "string") return [claim];
  return Array.isArray(claim) ? claim.filter((value): value is string => typeof value === "string") : [];
};

/** The roles somebody has after coming in by the issuer. The last administrator of a facility stays one, whatever the issuer says. */
export function rolesAfterEntry(now: readonly Role[], claimed: readonly Role[], otherAdministrators: boolean): Role[] {
  const keeps = now.includes("administrator") && !claimed.includes("administrator") && !otherAdministrators;
  return keeps ? [...claimed, "administrator"] : [...claimed];
}
