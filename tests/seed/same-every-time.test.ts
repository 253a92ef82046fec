import { afterAll, describe, expect, it } from "vitest";
import { openDatabase } from "@/lib/storage/client";
import { DAY, instant } from "@/lib/units/time";
import { storiesOf } from "@/seed/hospital";
import { seedHistory } from "@/seed/index";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";

/** The Monday after a Sunday in Chicago: a short day, and the same one twice. */
const MONDAY = Date.parse("2026-03-02T11:30:00Z");
const made: TestDatabase[] = [];
afterAll(() => Promise.all(made.map((test) => test.drop())));

interface Leaf {
  readonly at: string;
  readonly person: string;
  readonly text: string;
  readonly details: string;
}

/** What each facility's history says, without the ids, which are new in every database. */
async function toldBySeed(now: number, days: number): Promise<Leaf[][]> {
  const test = await createTestDatabase();
  made.push(test);
  await seedHistory({ databaseUrl: test.appUrl, ownerUrl: test.ownerUrl, now, days, progress: () => undefined });
  const database = openDatabase(test.appUrl);
  try {
    const stories = await storiesOf(database, instant(now));
    return await Promise.all(
      stories.map(({ department }) =>
        department.read(
          (tx, { facilityId }) => tx.$queryRaw<Leaf[]>`
            SELECT at::text, body::jsonb->'entry'->'person'->>'name' AS person, body::jsonb->'entry'->>'text' AS text,
              (body::jsonb->'entry'->'details')::text AS details
            FROM history.leaf WHERE facility_id = ${facilityId}::uuid ORDER BY sequence`,
        ),
      ),
    );
  } finally {
    await database.close();
  }
}

describe("the invented hospital", () => {
  it("tells the same story in every database, and a longer one begins like a shorter one", async () => {
    const [short = [], shortToo = []] = await toldBySeed(MONDAY, 1);
    const [long = [], longToo = []] = await toldBySeed(MONDAY + DAY, 2);
    expect(short.length).toBeGreaterThan(10);
    expect(long.length).toBeGreaterThan(short.length);
    expect(long.slice(0, short.length)).toEqual(short);
    expect(longToo.slice(0, shortToo.length)).toEqual(shortToo);
  });
});
