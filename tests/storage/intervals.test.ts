import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Scope } from "@/lib/storage/client";
import { meeting } from "@/tests/support/meeting";
import { connected, refusalOf, scoped } from "@/tests/support/postgres";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

const OVERLAPS = "23P01";
let department: SmallDepartment;
let here: Scope;
let app: pg.Client;
const ids: Record<string, string> = {};

beforeAll(async () => {
  department = await smallDepartment();
  here = { organisationId: department.admin.organisationId, facilityId: department.admin.facility.id };
  app = new pg.Client({ connectionString: department.appUrl });
  await app.connect();
  await scoped(app, here, async () => {
    const { rows } = await app.query<{ name: string; id: string }>(
      "SELECT tag AS name, id FROM workstation UNION ALL SELECT name, id FROM room UNION ALL SELECT tag, id FROM vaporizer UNION ALL SELECT serial, id FROM cylinder UNION ALL SELECT name, id FROM store",
    );
    for (const { name, id } of rows) ids[name] = id;
  });
});
afterAll(async () => {
  await app.end();
  await department.close();
});

const idOf = (name: string): string => {
  const id = ids[name];
  if (!id) throw new Error(`the department has no ${name}`);
  return id;
};

interface Interval {
  readonly from: string;
  readonly to?: string;
}
const NOW: Interval = { from: "2026-11-24T12:00:00Z" };

/** What came of inserting one row; the transaction is given up, so that each test begins with the imported department. */
let begun: string[] = [];
beforeEach(() => {
  begun = [];
});
async function inserted(
  table: string,
  row: Readonly<Record<string, string | null>>,
  client = app,
  scope = here,
): Promise<string> {
  const columns = { facility_id: scope.facilityId, id: crypto.randomUUID(), ...row };
  const names = Object.keys(columns).map((name) => `"${name}"`);
  const places = names.map((_, place) => `$${place + 1}`);
  const statement = `INSERT INTO fact.${table} (${names}) VALUES (${places})`;
  return refusalOf(
    scoped(client, scope, async () => {
      for (const earlier of begun) await client.query(earlier);
      await client.query(statement, Object.values(columns));
      throw new GivenUp();
    }).catch((error: unknown) => {
      if (!(error instanceof GivenUp)) throw error;
    }),
  );
}
class GivenUp extends Error {}

const fitted = (kind: string, item: string, workstation: string, position: string, { from, to }: Interval = NOW) =>
  inserted("fitting", {
    item_kind: kind,
    item_id: idOf(item),
    workstation_id: idOf(workstation),
    position,
    from,
    to: to ?? null,
  });
const place = (workstation: string, where: { room?: string; store?: string }, { from, to }: Interval = NOW) =>
  inserted("placement", {
    workstation_id: idOf(workstation),
    room_id: where.room ? idOf(where.room) : null,
    store_id: where.store ? idOf(where.store) : null,
    from,
    to: to ?? null,
  });

describe("fitted parts are intervals", () => {
  it("a vaporizer that is mounted is not mounted a second time, on this workstation or another", async () => {
    expect(await fitted("vaporizer", "VP-01", "AW-02", "left")).toBe(`${OVERLAPS} item_fitted_once`);
    expect(await fitted("vaporizer", "VP-01", "AW-01", "2")).toBe(`${OVERLAPS} item_fitted_once`);
    expect(await fitted("vaporizer", "VP-02", "AW-01", "2")).toBe("done");
  });

  it("a mount holds one vaporizer, a yoke one cylinder; the same name of another kind is another place", async () => {
    expect(await fitted("vaporizer", "VP-02", "AW-01", "1")).toBe(`${OVERLAPS} position_holds_one`);
    expect(await fitted("cylinder", "OX-40118", "AW-01", "1")).toBe(`${OVERLAPS} position_holds_one`);
    expect(await fitted("cylinder", "OX-40118", "AW-02", "1")).toBe("done");
  });

  it("takes the next one at the very instant the last came off, and not a millisecond sooner", async () => {
    const until = "2026-11-24T13:00:00.000Z";
    begun = [`UPDATE fact.fitting SET "to" = '${until}' WHERE item_id = '${idOf("VP-01")}'`];
    expect(await fitted("vaporizer", "VP-02", "AW-01", "1", { from: until })).toBe("done");
    expect(await fitted("vaporizer", "VP-02", "AW-01", "1", { from: "2026-11-24T12:59:59.999Z" })).toBe(
      `${OVERLAPS} position_holds_one`,
    );
    expect(await fitted("vaporizer", "VP-01", "AW-02", "left", { from: until })).toBe("done");
  });

  it("refuses a past that overlaps, and an end before its beginning", async () => {
    const past = { from: "2026-11-20T08:00:00Z", to: "2026-11-24T11:30:00Z" };
    expect(await fitted("vaporizer", "VP-02", "AW-01", "1", past)).toBe("done");
    expect(await fitted("vaporizer", "VP-02", "AW-01", "1", { ...past, to: "2026-11-24T11:30:01Z" })).toBe(
      `${OVERLAPS} position_holds_one`,
    );
    expect(await fitted("vaporizer", "VP-02", "AW-01", "2", { from: past.to, to: past.from })).toBe(
      "23514 fitting_forward",
    );
    expect(await fitted("wheel", "VP-02", "AW-01", "2")).toBe("23514 fitting_kind");
  });
});

describe("where a workstation stands is an interval", () => {
  it("a room holds one workstation", async () => {
    begun = [`UPDATE fact.placement SET "to" = '${NOW.from}' WHERE workstation_id = '${idOf("AW-02")}'`];
    expect(await place("AW-02", { room: "OR 1" })).toBe(`${OVERLAPS} room_holds_one_workstation`);
    expect(await place("AW-02", { room: "Procedure 1" })).toBe("done");
  });

  it("a workstation stands in one room, or in one store", async () => {
    expect(await place("AW-01", { room: "Procedure 1" })).toBe(`${OVERLAPS} workstation_in_one_place`);
    expect(await place("AW-01", { store: "Workroom" })).toBe(`${OVERLAPS} workstation_in_one_place`);
    begun = [`UPDATE fact.placement SET "to" = '${NOW.from}' WHERE workstation_id = '${idOf("AW-01")}'`];
    expect(await place("AW-01", { store: "Workroom" })).toBe("done");
  });

  it("stands somewhere, and not in two kinds of place at once", async () => {
    begun = [`UPDATE fact.placement SET "to" = '${NOW.from}' WHERE workstation_id = '${idOf("AW-01")}'`];
    expect(await place("AW-01", { room: "OR 1", store: "Workroom" })).toBe("23514 placement_somewhere");
    expect(await place("AW-01", {})).toBe("23514 placement_somewhere");
  });

  it("of two movers at once one is refused, though neither sees the other's row", async () => {
    const bothAreThere = meeting(2);
    const move = (workstation: string) =>
      connected(department.appUrl, (client) =>
        refusalOf(
          scoped(client, here, async () => {
            const ended = `UPDATE fact.placement SET "to" = $1 WHERE workstation_id = $2 AND "to" IS NULL`;
            await client.query(ended, [NOW.from, idOf(workstation)]);
            await bothAreThere();
            const begun = `INSERT INTO fact.placement (facility_id, id, workstation_id, room_id, "from") VALUES ($1, gen_random_uuid(), $2, $3, $4)`;
            await client.query(begun, [here.facilityId, idOf(workstation), idOf("Procedure 1"), NOW.from]);
          }),
        ),
      );
    const outcomes = await Promise.all([move("AW-01"), move("AW-02")]);
    expect(outcomes.sort()).toEqual([`${OVERLAPS} room_holds_one_workstation`, "done"]);
  });
});

describe("a room's state and a task's holder are intervals", () => {
  it("a room is not in use twice, nor in use and closed", async () => {
    const by = department.admin.personId;
    const occupancy = (state: string, { from, to }: Interval) => ({
      room_id: idOf("OR 1"),
      state,
      confirmed: "true",
      by,
      from,
      to: to ?? null,
    });
    begun = [
      `INSERT INTO fact.occupancy (facility_id, id, room_id, state, confirmed, by, "from") VALUES ('${here.facilityId}', gen_random_uuid(), '${idOf("OR 1")}', 'in-use', true, '${by}', '${NOW.from}')`,
    ];
    expect(await inserted("occupancy", occupancy("closed", NOW))).toBe(`${OVERLAPS} room_in_one_state`);
    expect(await inserted("occupancy", occupancy("in-use", { from: "2026-11-24T11:00:00Z", to: NOW.from }))).toBe(
      "done",
    );
    begun = [];
    expect(await inserted("occupancy", occupancy("asleep", NOW))).toBe("23514 occupancy_state");
  });

  it("a task has one holder at a time", async () => {
    const claim = (person: string, from: string) => ({ task_key: "check:one", person_id: person, from });
    const first = department.admin.personId;
    begun = [
      `INSERT INTO fact.claim (facility_id, id, task_key, person_id, "from") VALUES ('${here.facilityId}', gen_random_uuid(), 'check:one', '${first}', '${NOW.from}')`,
    ];
    expect(await inserted("claim", claim(crypto.randomUUID(), "2026-11-24T12:05:00Z"))).toBe(
      `${OVERLAPS} task_claimed_once`,
    );
    expect(await inserted("claim", { ...claim(first, "2026-11-24T12:05:00Z"), task_key: "check:two" })).toBe("done");
  });
});
