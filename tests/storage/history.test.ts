import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { readBoard } from "@/lib/queries/board";
import type { Scope } from "@/lib/storage/client";
import { ENTRIES_HEX, ROOTS_HEX } from "@/tests/handbook/merkle";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { connected, scoped } from "@/tests/support/postgres";
import { smallDepartment } from "@/tests/support/small-department";
import { foundedFacility } from "./facilities";
import { canonical, leafHash, nodeHash, rootOf, rootOfFrontier } from "./merkle-reference";

const FOUNDED = Date.parse("2026-11-24T11:30:00.000Z");
let test: TestDatabase;
let here: Scope;
let app: pg.Client;

beforeAll(async () => {
  test = await createTestDatabase();
  app = new pg.Client({ connectionString: test.appUrl });
  await app.connect();
});
afterAll(async () => {
  await app.end();
  await test.drop();
});
let founded = 0;
beforeEach(async () => {
  founded += 1;
  here = await foundedFacility(test, `Alder Ridge ${founded}`, FOUNDED);
});

interface Leaf {
  sequence: number;
  at: string;
  body: string;
  hash: Buffer;
}

const append = (client: pg.Client, at: string, entry: unknown) =>
  scoped(client, here, () =>
    client.query("SELECT * FROM history.append_leaf($1, $2, $3)", [here.facilityId, at, canonical(entry)]),
  );

/** As text, because a JavaScript Date would hide what is finer than a millisecond. */
async function record(
  client = app,
  scope = here,
): Promise<{ leaves: Leaf[]; frontier: { size: number; nodes: Buffer[] } }> {
  return scoped(client, scope, async () => {
    const leaves = await client.query<Leaf>(
      `SELECT sequence::int, to_char(at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"') AS at, body, hash FROM history.leaf WHERE facility_id = $1 ORDER BY sequence`,
      [scope.facilityId],
    );
    const frontier = await client.query<{ size: number; nodes: Buffer[] }>(
      "SELECT size::int, nodes FROM history.frontier WHERE facility_id = $1",
      [scope.facilityId],
    );
    return { leaves: leaves.rows, frontier: frontier.rows[0] ?? { size: -1, nodes: [] } };
  });
}

const countUp = (length: number) => Array.from({ length }, (_, place) => place);

/** Everything a record must be, whoever wrote it. */
function expectWhole({ leaves, frontier }: Awaited<ReturnType<typeof record>>): void {
  expect(leaves.map(({ sequence }) => sequence)).toEqual(countUp(leaves.length));
  for (const { sequence, at, body, hash } of leaves) {
    expect(hash.equals(leafHash(Buffer.from(body, "utf8")))).toBe(true);
    expect(canonical(JSON.parse(body))).toBe(body);
    expect(JSON.parse(body)).toMatchObject({ sequence, at: `${at.slice(0, 23)}Z` });
    expect(at).toMatch(/\.\d{3}000Z$/);
  }
  expect([...leaves].sort((left, right) => left.at.localeCompare(right.at))).toEqual(leaves);
  expect(new Set(leaves.map(({ at }) => at)).size).toBe(leaves.length);
  expect(frontier.size).toBe(leaves.length);
  const root = rootOf(leaves.map(({ body }) => leafHash(Buffer.from(body, "utf8"))));
  expect(rootOfFrontier(frontier.nodes).toString("hex")).toBe(root.toString("hex"));
}

describe("the reference that history is held against", () => {
  it("agrees with the published roots of none to eight entries", () => {
    const leaves = ENTRIES_HEX.map((hex) => leafHash(Buffer.from(hex, "hex")));
    expect(ROOTS_HEX.map((_, n) => rootOf(leaves.slice(0, n)).toString("hex"))).toEqual(ROOTS_HEX);
  });

  it("tells a leaf from a node of the same 64 bytes", () => {
    const [left, right] = [leafHash(Buffer.from("a")), leafHash(Buffer.from("b"))];
    expect(leafHash(Buffer.concat([left, right])).equals(nodeHash(left, right))).toBe(false);
  });
});

describe("history", () => {
  it("keeps a frontier whose root is the root over all leaves, for every number of them up to 20", async () => {
    for (const n of countUp(20).slice(1)) {
      expectWhole(await record());
      await append(app, `2026-11-24T12:00:${String(n).padStart(2, "0")}.000Z`, { text: `Entry ${n}`, n });
    }
    const end = await record();
    expectWhole(end);
    expect(end.leaves.length).toBe(20);
    expect(end.frontier.nodes.length).toBe(2);
  });

  it("has no gap and no double under eight writers at once, and its time only rises", async () => {
    const writing = countUp(8).map((writer) =>
      connected(test.appUrl, async (client) => {
        for (const n of countUp(15))
          await append(client, `2026-11-24T12:00:00.${String(n).padStart(3, "0")}Z`, { writer, n });
      }),
    );
    await Promise.all(writing);
    const end = await record();
    expectWhole(end);
    const written = end.leaves
      .slice(1)
      .map(({ body }) => (JSON.parse(body) as { entry: { writer: number; n: number } }).entry);
    expect(new Set(written.map(({ writer, n }) => `${writer}.${n}`)).size).toBe(120);
    // Each writer's own entries keep their order.
    for (const writer of countUp(8))
      expect(written.filter((entry) => entry.writer === writer).map(({ n }) => n)).toEqual(countUp(15));
  });

  it("goes on by a millisecond when the clock stands still or goes back, and cuts what is finer", async () => {
    await append(app, "2026-11-24T12:00:00.123999Z", { text: "finer than a millisecond" });
    await append(app, "2026-11-24T12:00:00.123Z", { text: "at the same time" });
    await append(app, "2026-11-24T09:00:00.000Z", { text: "earlier" });
    const end = await record();
    expectWhole(end);
    expect(end.leaves.slice(1).map(({ at }) => at.slice(11, 23))).toEqual([
      "12:00:00.123",
      "12:00:00.124",
      "12:00:00.125",
    ]);
  });

  it("leaves no trace of a transaction that was given up", async () => {
    const before = await record();
    const givenUp = scoped(app, here, async () => {
      await app.query("SELECT * FROM history.append_leaf($1, now(), '{}')", [here.facilityId]);
      throw new Error("given up");
    });
    await expect(givenUp).rejects.toThrow("given up");
    expect(await record()).toEqual(before);
    await append(app, "2026-11-24T12:00:00.000Z", { text: "next" });
    expectWhole(await record());
  });

  it("refuses an entry that is not JSON, so that every leaf can be read", async () => {
    const broken = scoped(app, here, () =>
      app.query("SELECT * FROM history.append_leaf($1, now(), 'no JSON')", [here.facilityId]),
    );
    await expect(broken).rejects.toThrow(/json/);
    expectWhole(await record());
  });

  it("shows a changed, removed, reordered or truncated leaf by its root", async () => {
    for (const n of countUp(9)) await append(app, "2026-11-24T12:00:00Z", { n });
    const { leaves, frontier } = await record();
    const root = rootOfFrontier(frontier.nodes).toString("hex");
    const bodies = leaves.map(({ body }) => body);
    const rootFrom = (texts: string[]) =>
      rootOf(texts.map((text) => leafHash(Buffer.from(text, "utf8")))).toString("hex");
    expect(rootFrom(bodies)).toBe(root);
    const [first = "", second = "", ...rest] = bodies;
    for (const forged of [
      [`${first} `, second, ...rest],
      [second, ...rest],
      [second, first, ...rest],
      bodies.slice(0, -1),
      [...bodies, first],
    ])
      expect(rootFrom(forged)).not.toBe(root);
  });
});

describe("what commands write into history", () => {
  it("is canonical whatever people typed, and its leaves are whole", async () => {
    const department = await smallDepartment();
    const { admin, database, clock } = department;
    const { rooms } = await readBoard(admin, { database, now: clock.now });
    const workstationId = rooms.find(({ workstation }) => workstation)?.workstation?.id ?? "";
    const technician = await department.person("Søren “Ö” Ünal \u{1F9EF}", ["technician"]);
    for (const reason of [
      'quotes " and \\ back',
      "Zweiter Grund: Pfeifen – ½ Ton höher",
      "line\nbreak",
      "\u{1F525} \u2028 end",
      "€ < > & '",
    ]) {
      const { holdId } = await department.must(holdWorkstation, { workstationId, reason }, technician);
      await department.must(liftHold, { workstationId, holdId, reason }, technician);
    }
    const scope = { organisationId: admin.organisationId, facilityId: admin.facility.id };
    const end = await connected(department.appUrl, (client) => record(client, scope));
    await department.close();
    expectWhole(end);
    expect(end.leaves.length).toBe(12);
    const texts = end.leaves.map(({ body }) => (JSON.parse(body) as { entry: { text: string } }).entry.text);
    expect(texts).toContain("Held OR 1: \u{1F525} \u2028 end");
  });
});
