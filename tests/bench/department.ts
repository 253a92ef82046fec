import pg from "pg";
import type { Actor } from "@/lib/auth/actor";
import { proofWithoutSession } from "@/lib/auth/signing";
import type { Command } from "@/lib/commands/command";
import { execute } from "@/lib/commands/execute";
import { found } from "@/lib/commands/found";
import { importDepartment } from "@/lib/commands/import-department";
import type { Role } from "@/lib/domain/vocabulary";
import { readBoard } from "@/lib/queries/board";
import type { BoardRow } from "@/lib/schemas/board";
import { type Database, openDatabase } from "@/lib/storage/client";
import { migrate } from "@/lib/storage/migrate";
import { listPeople } from "@/lib/storage/people";
import { type Instant, instant } from "@/lib/units/time";
import { departmentFiles, PROVIDER, TECHNICIAN } from "./department-files";

export const CLOCK = { now: (): Instant => instant(Date.now()) };

const FACILITY = { name: "Bench", timeZone: "America/Chicago", scheme: "US", pressureUnit: "psi" } as const;

/** A department on a database of its own, and the people who work in it. */
export interface BenchDepartment {
  readonly database: Database;
  readonly administrator: Actor;
  readonly technician: Actor;
  readonly provider: Actor;
  readonly rooms: readonly BoardRow[];
  /** Runs a command that must succeed; returns its reply and the number of its history entry. */
  must<In, Reply>(command: Command<In, Reply>, input: In, actor: Actor): Promise<{ reply: Reply; sequence: number }>;
}

/** From an empty database by the product's own means: migrations, the first administrator, the import. */
export async function makeDepartment(
  urls: { readonly appUrl: string; readonly ownerUrl: string },
  rooms: number,
  viewers: number,
): Promise<BenchDepartment> {
  await migrate(urls.ownerUrl);
  const owner = openDatabase(urls.ownerUrl);
  const ids = await found(owner, CLOCK, {
    organisation: "Bench",
    facility: FACILITY.name,
    timeZone: FACILITY.timeZone,
    scheme: FACILITY.scheme,
    pressureUnit: FACILITY.pressureUnit,
    name: "Bench Administrator",
    userId: "bench.administrator",
    password: "measured not guessed",
  });
  await owner.close();
  const database = openDatabase(urls.appUrl);
  const actor = (personId: string, name: string, roles: readonly Role[]): Actor => ({
    kind: "person",
    personId,
    name,
    userId: name,
    roles,
    organisationId: ids.organisationId,
    facility: { ...FACILITY, id: ids.facilityId },
    facilities: [],
    sessionId: null,
  });
  const must: BenchDepartment["must"] = async (command, input, by) => {
    const outcome = await execute(
      { database, clock: CLOCK },
      command,
      input,
      by,
      crypto.randomUUID(),
      command.meaning ? proofWithoutSession(by) : null,
    );
    if (!outcome.ok) throw new Error(`${command.name}: ${outcome.refusal}: ${outcome.message}`);
    return { reply: outcome.value.reply, sequence: outcome.value.sequence ?? -1 };
  };
  const administrator = actor(ids.personId, "Bench Administrator", ["administrator"]);
  await must(importDepartment, { files: departmentFiles(rooms, viewers) }, administrator);
  await refreshStatistics(urls.ownerUrl);
  const people = await database.inScope(ids, (tx) => listPeople(tx, ids.facilityId));
  const find = (userId: string) => {
    const person = people.find((one) => one.userId === userId);
    if (!person) throw new Error(`the import made no ${userId}`);
    return actor(person.id, person.name, person.roles);
  };
  const technician = find(TECHNICIAN);
  const board = await readBoard(technician, { database, now: CLOCK.now });
  return { database, administrator, technician, provider: find(PROVIDER), rooms: board.rooms, must };
}

/** The server does this by itself within a minute of an import; what is measured here is the state after that. */
async function refreshStatistics(ownerUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  await client.query("ANALYZE");
  await client.end();
}
