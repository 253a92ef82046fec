import { randomUUID } from "node:crypto";
import canonicalize from "canonicalize";
import type { Actor } from "@/lib/auth/actor";
import { hashPassword } from "@/lib/auth/password";
import type { Refusal } from "@/lib/commands/command";
import type { Clock, Surroundings } from "@/lib/commands/execute";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { may } from "@/lib/domain/permission";
import { readyMadeProcedures } from "@/lib/domain/ready-made-procedures/all";
import type { Scheme } from "@/lib/domain/vocabulary";
import type { Database, Tx } from "@/lib/storage/client";
import { beginCommand, finishCommand } from "@/lib/storage/command-frame";
import { foundFacility, foundOrganisation } from "@/lib/storage/facilities";
import { insertPerson, replaceRoles, storePassword } from "@/lib/storage/people";
import { insertProcedure } from "@/lib/storage/procedures";
import { type Instant, instant } from "@/lib/units/time";

export interface NewFacility {
  readonly name: string;
  readonly timeZone: string;
  readonly scheme: Scheme;
  readonly pressureUnit: Actor["facility"]["pressureUnit"];
}

export interface Founding {
  readonly organisation: string;
  readonly facility: string;
  readonly timeZone: string;
  readonly scheme: Scheme;
  readonly pressureUnit: Actor["facility"]["pressureUnit"];
  readonly name: string;
  readonly userId: string;
  readonly password: string;
}

/** The first administrator, the organisation and its first facility, from nothing. Needs the owner's connection, or an empty database. */
export async function found(
  owner: Database,
  clock: Clock,
  founding: Founding,
): Promise<{ organisationId: string; facilityId: string; personId: string }> {
  const at = instant(clock.now());
  const ids = { organisationId: randomUUID(), facilityId: randomUUID(), personId: randomUUID() };
  const hash = await hashPassword(founding.password);
  await owner.inScope(ids, async (tx) => {
    await foundOrganisation(tx, ids.organisationId, founding.organisation);
    await insertPerson(tx, ids.organisationId, { id: ids.personId, userId: founding.userId, name: founding.name, at });
    await storePassword(tx, ids.personId, hash, at);
    await openFacility(
      tx,
      ids,
      { ...founding, name: founding.facility },
      { personId: ids.personId, name: founding.name },
      at,
    );
  });
  return ids;
}

/** Another facility of the same organisation; who adds it becomes its administrator. */
export async function addFacility(
  surroundings: Surroundings,
  facility: NewFacility,
  actor: Actor,
): Promise<Outcome<{ readonly facilityId: string }, Refusal>> {
  if (!may(actor.roles, "add-facility")) return refused("not-allowed", `${actor.name} may not add facilities.`);
  const at = instant(surroundings.clock.now());
  const ids = { organisationId: actor.organisationId, facilityId: randomUUID() };
  return surroundings.database.inScope(
    { organisationId: actor.organisationId, facilityId: actor.facility.id },
    async (tx) => {
      const { roles } = await beginCommand(
        tx,
        { organisationId: actor.organisationId, facilityId: actor.facility.id },
        actor.personId,
        {},
        null,
      );
      if (!may(roles, "add-facility")) return refused("not-allowed", `${actor.name} may not add facilities.`);
      const named = await tx.facility.findFirst({ where: { name: facility.name } });
      if (named) return refused("taken", `There is a facility named ${facility.name} already.`, "name");
      await openFacility(tx, ids, facility, actor, at);
      return done({ facilityId: ids.facilityId });
    },
  );
}

async function openFacility(
  tx: Tx,
  ids: { organisationId: string; facilityId: string },
  facility: NewFacility,
  by: { personId: string; name: string },
  at: Instant,
): Promise<void> {
  await foundFacility(tx, ids.facilityId, facility, at);
  await replaceRoles(tx, ids.facilityId, by.personId, ["administrator", "manager"]);
  for (const procedure of readyMadeProcedures(facility.scheme))
    await insertProcedure(tx, ids.facilityId, randomUUID(), procedure, at);
  const entry = canonicalize({
    command: "add-facility",
    person: { id: by.personId, name: by.name },
    role: "administrator",
    rooms: [],
    workstations: [],
    text: `Founded ${facility.name}`,
    details: [],
    data: { timeZone: facility.timeZone, scheme: facility.scheme, pressureUnit: facility.pressureUnit },
  });
  if (entry === undefined) throw new Error("the founding has no canonical form");
  await finishCommand(tx, ids, {
    key: null,
    digest: "",
    reply: null,
    at,
    entry,
    notice: { command: "add-facility", holders: [], all: true },
  });
}
