import { afterAll, beforeAll, expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { judgeDocument } from "@/lib/exchange/judge/judge-document";
import { inFacility } from "@/lib/queries/read";
import { type Database, openDatabase } from "@/lib/storage/client";
import { loadEvidence } from "@/lib/storage/evidence";
import { everyHolder } from "@/lib/storage/places";
import { instant } from "@/lib/units/time";
import { storiesOf } from "@/seed/hospital";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { SEED_NOW } from "@/tests/support/seeded-template";

let test: TestDatabase;
let database: Database;

beforeAll(async () => {
  test = await createTestDatabase({ seededDays: 2 });
  database = openDatabase(test.appUrl);
});
afterAll(async () => {
  await database.close();
  await test.drop();
});

it("every document that the product serves is one that the judge takes from outside, and judges the same", async () => {
  let documents = 0;
  for (const { department, manager } of await storiesOf(database, instant(SEED_NOW))) {
    const holders = await inFacility(
      department.actor(manager),
      async (tx, frame, now) => {
        const { rooms, workstations } = await everyHolder(tx, frame.scope.facilityId);
        return loadEvidence(tx, frame, rooms, workstations, now);
      },
      { database, now: () => SEED_NOW },
    );
    for (const { evidence } of holders) {
      const served = JSON.parse(JSON.stringify(evidence));
      expect(judgeDocument(served, { why: false })).toEqual({ ok: true, body: judge(evidence) });
      documents += 1;
    }
  }
  expect(documents).toBeGreaterThan(25);
});
