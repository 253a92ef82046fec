import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { readReadyBy } from "@/lib/queries/ready-by";
import { readReasons } from "@/lib/queries/reasons";
import { type Database, openDatabase } from "@/lib/storage/client";
import { instant } from "@/lib/units/time";
import { storiesOf } from "@/seed/hospital";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { SEED_NOW } from "@/tests/support/seeded-template";

/**
 * Both reports against SQL written another way: minute by minute, how did each room stand? The zone of the invented hospital is
 * America/Chicago, its check day turns at 03:00.
 */
const DAYS = { from: "2026-03-02", to: "2026-03-03" };

let test: TestDatabase;
let database: Database;
let client: pg.Client;
let manager: Actor;

beforeAll(async () => {
  test = await createTestDatabase({ seededDays: 2 });
  database = openDatabase(test.appUrl);
  const [{ department, manager: person }] = await storiesOf(database, instant(SEED_NOW));
  manager = department.actor(person);
  client = new pg.Client({ connectionString: test.appUrl });
  await client.connect();
  await client.query("SELECT set_config('app.organisation', $1, false), set_config('app.facility', $2, false)", [
    manager.organisationId,
    manager.facility.id,
  ]);
});
afterAll(async () => {
  await client?.end();
  await database?.close();
  await test?.drop();
});

const reading = () => ({ database, now: () => SEED_NOW });

const STOOD = `
  SELECT l.room_id, l.date::text, c.state, c.judgement
  FROM day_list l CROSS JOIN LATERAL (
    SELECT * FROM derived.readiness_change c WHERE c.holder_id = l.room_id
      AND c.at <= ((l.date + l.first_case::time) AT TIME ZONE 'America/Chicago') ORDER BY c.at DESC, c.id DESC LIMIT 1) c
  WHERE l.first_case IS NOT NULL AND l.date BETWEEN $1 AND $2 AND NOT EXISTS (
    SELECT FROM fact.occupancy o WHERE o.room_id = l.room_id AND o.state = 'closed' AND o."from" <= ((l.date + l.first_case::time) AT TIME ZONE 'America/Chicago')
      AND (o."to" IS NULL OR o."to" > ((l.date + l.first_case::time) AT TIME ZONE 'America/Chicago')))`;

interface Row {
  room_id: string;
  date: string;
  state: string;
  judgement: { readyForList: boolean; reasons: { severity: string; allowedUntil: string | null }[] };
}

describe("ready by the first case", () => {
  it("counts a room as the log of changes says it stood when its first case came", async () => {
    const { rows } = await client.query<Row>(STOOD, [DAYS.from, DAYS.to]);
    const ready = rows.filter(
      ({ state, judgement }) =>
        state === "ready" ||
        (state === "ready-limited" &&
          judgement.readyForList &&
          judgement.reasons.every(({ severity, allowedUntil }) => severity !== "limits" || allowedUntil !== null)),
    );
    const report = await readReadyBy(manager, DAYS, reading());
    const sum = (of: (morning: (typeof report.mornings)[number]) => number) =>
      report.mornings.reduce((total, morning) => total + of(morning), 0);
    expect(rows.length).toBeGreaterThan(30);
    expect(sum(({ running }) => running)).toBe(rows.length);
    expect(sum(({ inTime }) => inTime)).toBe(ready.length);
    for (const { running, inTime, late, never, notYet } of report.mornings)
      expect(inTime + late + never + notYet).toBe(running);
  });

  it("says of this morning what is still to come, and nothing of the days that are not there", async () => {
    const { mornings } = await readReadyBy(manager, { from: "2026-03-04", to: "2026-03-05" }, reading());
    expect(mornings[0]?.running).toBeGreaterThan(15);
    expect(mornings[0]?.rooms.every(({ outcome }) => outcome === "in-time" || outcome === "not-yet")).toBe(true);
    expect(mornings[1]).toMatchObject({ running: 0, rooms: [], medianMinutesBefore: null });
  });
});

describe("the count of reasons", () => {
  it("equals a count made minute by minute", async () => {
    const { rows } = await client.query<{ rule: string; room_days: string; minutes: string }>(
      `WITH minutes AS (
         SELECT d::date AS day, m FROM generate_series($1::timestamp, $2::timestamp, interval '1 day') d,
           generate_series((d + time '03:00') AT TIME ZONE 'America/Chicago', ((d + interval '1 day' + time '03:00') AT TIME ZONE 'America/Chicago') - interval '1 minute', interval '1 minute') m),
       log AS (SELECT c.holder_id, c.at, lead(c.at, 1, 'infinity') OVER (PARTITION BY c.holder_id ORDER BY c.at, c.id) AS until, c.judgement
         FROM derived.readiness_change c JOIN room r ON r.id = c.holder_id),
       seen AS (SELECT DISTINCT m.day, m.m, l.holder_id, x->>'rule' AS rule FROM minutes m JOIN log l ON l.at <= m.m AND l.until > m.m,
         jsonb_array_elements(l.judgement->'reasons') x)
       SELECT rule, count(DISTINCT (holder_id, day)) AS room_days, count(*) AS minutes FROM seen GROUP BY rule`,
      [DAYS.from, DAYS.to],
    );
    const { reasons } = await readReasons(manager, DAYS, reading());
    const counted = new Map(reasons.map(({ rule, roomDays, hours }) => [rule, { roomDays, hours }]));
    expect(rows.length).toBeGreaterThanOrEqual(3);
    for (const { rule, room_days, minutes } of rows) {
      const line = counted.get(rule);
      // A reason that came and went between two minutes is seen by the report and not by the count.
      expect(line?.roomDays).toBeGreaterThanOrEqual(Number(room_days));
      expect(Math.abs((line?.hours ?? 0) - Number(minutes) / 60)).toBeLessThan(0.1 + Number(room_days) * 0.02);
    }
  });
});
