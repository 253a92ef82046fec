import { createHash, randomUUID } from "node:crypto";
import canonicalize from "canonicalize";
import type { Claims } from "@/lib/auth/issuer";
import type { Surroundings } from "@/lib/commands/execute";
import { rolesAfterEntry, rolesFromClaims } from "@/lib/domain/access/decide";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Role } from "@/lib/domain/vocabulary";
import { userId as userIdShape } from "@/lib/schemas/set-up";
import type { Tx } from "@/lib/storage/client";
import { finishCommand } from "@/lib/storage/command-frame";
import {
  bindIdentity,
  type FacilityMapping,
  findIdentity,
  type KnownIdentity,
  roleMappings,
} from "@/lib/storage/identities";
import { endSessionsOf, insertPerson, listPeople, lockRoles, replaceRoles, userIdTaken } from "@/lib/storage/people";
import { instant } from "@/lib/units/time";

type Known = Omit<KnownIdentity, "active">;

/**
 * Somebody whom the issuer has sent. Known by issuer and subject alone: a name or an address may pass to somebody else. Whoever is not
 * known comes in only where a facility's mapping gives their claims a role, and is then a new person; an existing one is bound by an
 * administrator. Where a mapping is set, the roles follow the claims at every entry, and the record says so.
 */
export async function comeIn(
  surroundings: Surroundings,
  claims: Claims,
): Promise<Outcome<Known, "unknown-subject" | "inactive">> {
  const { database } = surroundings;
  const mappings = await roleMappings(database);
  const known = await findIdentity(database, claims.iss, claims.sub);
  if (known && !known.active) return refused("inactive", `${known.name} is no longer active here.`);
  const given = mappings.map((facility) => ({ facility, roles: rolesFromClaims(facility.mapping, claims) }));
  const first = given.find(({ roles }) => roles.length > 0);
  if (!known && !first)
    return refused("unknown-subject", `Nobody here is bound to the subject ${claims.sub} of ${claims.iss}.`);
  const organisationId = known?.organisationId ?? first?.facility.organisationId;
  let personId = known?.personId ?? null;
  for (const { facility, roles } of given) {
    if (facility.organisationId !== organisationId || (personId === null && roles.length === 0)) continue;
    personId = await entered(surroundings, facility, claims, personId, roles);
  }
  const now = await findIdentity(database, claims.iss, claims.sub);
  return now ? done(now) : refused("unknown-subject", "The binding was taken away in the meantime.");
}

/** In one facility: the person if new, the roles if others, and one entry of the record for either. */
function entered(
  { database, clock }: Surroundings,
  { facilityId, organisationId }: FacilityMapping,
  claims: Claims,
  personId: string | null,
  claimed: readonly Role[],
): Promise<string> {
  const scope = { facilityId, organisationId };
  return database.inScope(scope, async (tx) => {
    const at = instant(clock.now());
    await lockRoles(tx, facilityId);
    const id = personId ?? (await newPerson(tx, organisationId, claims, at));
    const people = await listPeople(tx, facilityId);
    const person = people.find((one) => one.id === id);
    if (!person) throw new Error("somebody who comes in is not of the organisation");
    const others = people.some((one) => one.id !== id && one.active && one.roles.includes("administrator"));
    const roles = rolesAfterEntry(person.roles, claimed, others);
    if (same(person.roles, roles)) return id;
    await replaceRoles(tx, facilityId, id, roles);
    await endSessionsOf(tx, id, at);
    const entry = canonicalize({
      command: "come-in",
      person: { id, name: person.name },
      role: null,
      rooms: [],
      workstations: [],
      text: `${personId === null ? "Came in for the first time" : "Came in with other roles"} by ${new URL(claims.iss).host}: ${roles.join(", ").replaceAll("-", " ") || "no role here"}`,
      details: [],
      data: { personId: id, issuer: claims.iss, subject: claims.sub, was: [...person.roles], roles },
    });
    if (entry === undefined) throw new Error("the entry has no canonical form");
    const notice = { command: "change-roles", holders: [] };
    await finishCommand(tx, scope, { key: null, digest: "", reply: null, at, entry, notice });
    return id;
  });
}

const same = (left: readonly Role[], right: readonly Role[]): boolean =>
  left.length === right.length && left.every((role) => right.includes(role));

async function newPerson(
  tx: Tx,
  organisationId: string,
  claims: Claims,
  at: ReturnType<typeof instant>,
): Promise<string> {
  const id = randomUUID();
  const userId = await freeUserId(tx, claims);
  const name = textIn(claims.name) ?? userId;
  if (!(await insertPerson(tx, organisationId, { id, userId, name, at })))
    throw new Error("the user id was taken in the same moment");
  const identity = { issuer: claims.iss, subject: claims.sub, organisationId, personId: id, at, by: null };
  if (!(await bindIdentity(tx, identity))) throw new Error("the subject came in twice in the same moment");
  return id;
}

/** The issuer's own name for them where nobody has or had it; else one that follows from issuer and subject. */
async function freeUserId(tx: Tx, claims: Claims): Promise<string> {
  const wished = userIdShape.safeParse(textIn(claims.preferred_username) ?? "");
  if (wished.success && !(await userIdTaken(tx, wished.data))) return wished.data;
  const digest = createHash("sha256").update(`${claims.iss} ${claims.sub}`, "utf8").digest("hex");
  return `p${digest.slice(0, 11)}`;
}

const LONGEST_NAME = 120;
function textIn(claim: unknown): string | null {
  if (typeof claim !== "string") return null;
  const text = [...claim]
    .filter((character) => character >= " ")
    .join("")
    .trim()
    .slice(0, LONGEST_NAME);
  return text === "" ? null : text;
}
