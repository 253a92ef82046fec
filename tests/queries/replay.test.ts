import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { differences } from "@/lib/domain/as-of/decide";
import { judge } from "@/lib/domain/judge";
import { ENGINE_VERSION } from "@/lib/domain/judgement";
import { frameAt, holdersAt } from "@/lib/storage/as-of";
import { type Database, openDatabase, type Scope } from "@/lib/storage/client";
import { changesBetween, type LoggedChange } from "@/lib/storage/readiness-log";
import { DAY, instant, later, timestampOf } from "@/lib/units/time";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { everyFacility } from "@/tests/support/facility-scopes";
import { SEED_NOW } from "@/tests/support/seeded-template";

/** Every line of the demonstration's three weeks; a larger number is for a hurry. */
const EVERY = Number(process.env.REPLAY_EVERY ?? 1);
const DAYS = Number(process.env.REPLAY_DAYS ?? 21);
const SEEDED_WITHIN_MS = 300_000;

let test: TestDatabase;
let database: Database;
let scopes: Scope[];

beforeAll(async () => {
  test = await createTestDatabase({ seededDays: DAYS });
  database = openDatabase(test.appUrl);
  scopes = await everyFacility(test.ownerUrl);
}, SEEDED_WITHIN_MS);
afterAll(async () => {
  await database.close();
  await test.drop();
});

const linesOf = (scope: Scope) =>
  database.inScope(scope, (tx) =>
    changesBetween(tx, scope.facilityId, later(instant(SEED_NOW), -(DAYS + 3) * DAY), later(instant(SEED_NOW), DAY)),
  );

/** What the line says, and what the evidence of its moment says today: the fields that differ, by moment and room. */
async function replayed(scope: Scope, { at, holderId, judgement }: LoggedChange): Promise<string[]> {
  return database.inScope(scope, async (tx) => {
    const frame = await frameAt(tx, scope, at);
    const holder = (await holdersAt(tx, frame, at, [holderId])).find(({ id }) => id === holderId);
    if (!holder) return [`${timestampOf(at)} ${holderId}: not there`];
    return differences(judgement, judge(holder.evidence)).map(
      (part) => `${timestampOf(at)} ${holder.evidence.room?.name ?? holder.evidence.workstation?.tag}: ${part}`,
    );
  });
}

describe("the log of changes and a replay of the evidence", () => {
  it("say the same, line by line", async () => {
    const wrong: string[] = [];
    let looked = 0;
    for (const scope of scopes) {
      const lines = (await linesOf(scope)).filter(({ engineVersion }) => engineVersion === ENGINE_VERSION);
      for (const line of lines.filter((_line, place) => place % EVERY === 0)) {
        looked += 1;
        wrong.push(...(await replayed(scope, line)));
      }
    }
    expect(wrong.slice(0, 20)).toEqual([]);
    expect(looked).toBeGreaterThan(1_000);
  }, 120_000);
});
