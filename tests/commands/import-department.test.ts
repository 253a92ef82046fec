import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { passwordMatches } from "@/lib/auth/password";
import { importDepartment } from "@/lib/commands/import-department";
import { startCase } from "@/lib/commands/occupancy";
import { readBoard } from "@/lib/queries/board";
import { readHistory } from "@/lib/queries/history";
import { previewImport } from "@/lib/queries/import-preview";
import { signInRecord } from "@/lib/storage/sessions";
import { example, type Files, templateWith } from "@/tests/exchange/import-files";
import { type SmallDepartment, smallDepartment, templates } from "@/tests/support/small-department";

let department: SmallDepartment;
let owner: pg.Client;
const reading = () => ({ database: department.database, now: department.clock.now });
const preview = (files: Files) => previewImport(department.admin, files, reading());
const importing = (files: Files) => department.must(importDepartment, { files }, department.admin);

beforeAll(async () => {
  department = await smallDepartment();
  owner = new pg.Client({ connectionString: department.ownerUrl });
  await owner.connect();
  await owner.query("SELECT set_config('app.organisation', $1, false), set_config('app.facility', $2, false)", [
    department.admin.organisationId,
    department.admin.facility.id,
  ]);
});
afterAll(async () => {
  await owner.end();
  await department.close();
});

/** Every row of every table an import writes, so that "nothing changed" means nothing. */
const TABLES = [
  "suite",
  "pipeline_zone",
  "store",
  "room",
  "workstation_model",
  "workstation",
  "cylinder",
  "vaporizer",
  "absorbent",
  "oxygen_sensor",
  "service_plan",
  "person",
  "person_role",
  "day_list",
  "fact.placement",
  "fact.fitting",
  "fact.equipment_event",
];
async function everything(): Promise<string> {
  const tables = [];
  for (const table of TABLES)
    tables.push((await owner.query(`SELECT to_jsonb(t)::text AS row FROM ${table} t ORDER BY 1`)).rows);
  return JSON.stringify(tables);
}

const placeOf = async (tag: string) =>
  (
    await owner.query(
      `SELECT r.name AS room, s.name AS store, p."to" IS NULL AS now FROM workstation w JOIN fact.placement p ON p.workstation_id = w.id
     LEFT JOIN room r ON r.id = p.room_id LEFT JOIN store s ON s.id = p.store_id WHERE w.tag = $1 ORDER BY p."from", p."to" NULLS LAST`,
      [tag],
    )
  ).rows;

describe("an import", () => {
  it("makes a board of rooms that nobody has looked at yet", async () => {
    const { rooms } = await readBoard(department.admin, reading());
    expect(rooms.find(({ name }) => name === "OR 1")).toMatchObject({
      state: "to-check",
      workstation: { tag: "AW-01" },
    });
    expect(rooms.find(({ name }) => name === "Procedure 1")).toMatchObject({
      state: "out-of-service",
      workstation: null,
    });
  });

  it("repeated says same and changes not one row", async () => {
    const before = await everything();
    const { counts } = await importing(templates());
    expect(counts.map(({ file, rows, added, changed, same }) => [file, rows, added, changed, same])).toEqual(
      [
        "suites",
        "zones",
        "stores",
        "rooms",
        "models",
        "workstations",
        "cylinders",
        "vaporizers",
        "absorbent",
        "sensors",
        "service",
        "people",
        "list",
      ].map((file) => [file, 2, 0, 0, 2]),
    );
    expect(await everything()).toBe(before);
  });

  it("with one bad row writes nothing of all the good ones", async () => {
    const before = await everything();
    const files = {
      ...templates(),
      suites: "name,walking order\nNew suite,9\nMain suite,2\n",
      list: templateWith("list", "OR 1", "OR 77"),
    };
    const outcome = await department.run(importDepartment, { files }, department.admin);
    expect(outcome).toMatchObject({ ok: false, refusal: "invalid", field: "files.list" });
    expect(outcome.ok ? "" : outcome.message).toMatch(
      /^Nothing was imported\. list, line 2, room: No room is called "OR 77"/,
    );
    expect(await everything()).toBe(before);
  });

  it("previewed says what it would do and writes nothing", async () => {
    const before = await everything();
    const files = { suites: "name,walking order\nNew suite,9\nMain suite,7\nDay surgery,2\n", list: templates().list };
    expect(await preview(files)).toEqual({
      ok: true,
      problems: [],
      counts: [
        { file: "suites", rows: 3, added: 1, changed: 1, same: 1 },
        { file: "list", rows: 2, added: 0, changed: 0, same: 2 },
      ],
      date: "2026-11-24",
    });
    expect(await everything()).toBe(before);
  });

  it("shows at most 500 problems and says how many more there are", async () => {
    const rows = Array.from({ length: 720 }, (_, index) => `Room ${index},Nowhere,yes,active,${index}`);
    const { ok, problems } = await preview({
      rooms: ["name,suite,vacuum,waste gas,walking order", ...rows].join("\n"),
    });
    expect(ok).toBe(false);
    expect(problems).toHaveLength(500);
    expect(problems.at(-1)?.message).toBe("From here on there are 221 more problems. Mend those above and look again.");
  });

  it("is for those who set up a department", async () => {
    const technician = await department.person("Tove Lind", ["technician"]);
    expect(await department.run(importDepartment, { files: templates() }, technician)).toMatchObject({
      ok: false,
      refusal: "not-allowed",
    });
  });
});

describe("things that move", () => {
  it("a workstation in another room ends its old place, begins a new one and owes the recheck of a move", async () => {
    department.clock.add(10);
    const moved =
      "tag,serial,model,room,store\nAW-01,MB40-10211,Marrowby 40,,Workroom\nAW-02,P2-00874,Dovelin P2,OR 1,\n";
    const { counts } = await importing({ workstations: moved });
    expect(counts).toEqual([{ file: "workstations", rows: 2, added: 0, changed: 2, same: 0 }]);
    expect(await placeOf("AW-01")).toEqual([
      { room: "OR 1", store: null, now: false },
      { room: null, store: "Workroom", now: true },
    ]);
    expect(await placeOf("AW-02")).toEqual([
      { room: null, store: "Workroom", now: false },
      { room: "OR 1", store: null, now: true },
    ]);
    const { rows } = await owner.query("SELECT kind, subject_kind FROM fact.equipment_event");
    expect(rows).toEqual([{ kind: "moved-in", subject_kind: "workstation" }]);
    const { rooms } = await readBoard(department.admin, reading());
    expect(rooms.find(({ name }) => name === "OR 1")?.workstation?.tag).toBe("AW-02");
    department.clock.add(5);
    await importing({ workstations: templates().workstations });
  });

  it("a cylinder refitted ends its fitting, and another begins one", async () => {
    department.clock.add(5);
    const header =
      "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,workstation,yoke,store,contents\n";
    const off = "OX-40117,oxygen,US,E,4.8,660,1900,psi,,,Cylinder store,empty\n";
    const on = "OX-40118,oxygen,US,E,4.8,660,1900,psi,AW-01,1,,in use\n";
    await importing({ cylinders: header + off + on });
    const { rows } = await owner.query(
      `SELECT c.serial, c.contents, c.store_id IS NOT NULL AS stored, count(f.id)::int AS fittings, bool_or(f."to" IS NULL) AS fitted
       FROM cylinder c LEFT JOIN fact.fitting f ON f.item_id = c.id GROUP BY 1, 2, 3 ORDER BY 1`,
    );
    expect(rows).toEqual([
      { serial: "OX-40117", contents: "empty", stored: true, fittings: 1, fitted: false },
      { serial: "OX-40118", contents: "in-use", stored: false, fittings: 1, fitted: true },
    ]);
  });

  it("an oxygen cylinder on an air yoke is refused, and hangs where it hung", async () => {
    const before = await everything();
    const header =
      "serial,gas,scheme,size,water capacity L,rated contents L,rated pressure,rated pressure unit,workstation,yoke,contents\n";
    const models = templateWith("models", "1:oxygen|2:nitrous oxide", "1:oxygen|2:air");
    const cylinders = `${header}OX-40117,oxygen,US,E,4.8,660,1900,psi,AW-01,2,in use\n`;
    const outcome = await department.run(importDepartment, { files: { models, cylinders } }, department.admin);
    expect(outcome.ok ? "" : outcome.message).toMatch(/cylinders, line 2, yoke: .*2-5.*1-5/);
    expect(await everything()).toBe(before);
  });

  it("nothing is moved out of a room in use", async () => {
    const provider = await department.person("Odd Varga", ["provider"]);
    const { rooms } = await readBoard(department.admin, reading());
    const roomId = rooms.find(({ name }) => name === "OR 1")?.roomId ?? "";
    const started = await department.run(startCase, { roomId }, provider);
    // A room that was never checked may not start; the rule under test needs the case, however it began.
    if (!started.ok) {
      await owner.query(
        `INSERT INTO fact.occupancy (facility_id, id, room_id, state, confirmed, by, "from") VALUES ($1, gen_random_uuid(), $2, 'in-use', true, $3, $4)`,
        [department.admin.facility.id, roomId, provider.personId, new Date(department.clock.now())],
      );
    }
    const files = { workstations: "tag,serial,model,store\nAW-01,MB40-10211,Marrowby 40,Workroom\n" };
    expect((await preview(files)).problems).toMatchObject([
      { file: "workstations", line: 2, message: expect.stringMatching(/OR 1 has a case in it/) },
    ]);
  });
});

describe("people", () => {
  it("can sign in with their first password, which is kept nowhere else", async () => {
    const record = await signInRecord(department.database, "i.marsh");
    expect(record).toMatchObject({ name: "Ines Marsh", active: true });
    expect(await passwordMatches(record?.passwordHash ?? "", "change me at once")).toBe(true);
    const { rows } = await owner.query(
      "SELECT (SELECT string_agg(body, '') FROM history.leaf) || coalesce((SELECT string_agg(reply::text, '') FROM receipt), '') AS kept",
    );
    expect(rows[0].kept).toContain("Imported: 2 suites (2 added)");
    expect(rows[0].kept).not.toContain("change me at once");
  });

  it("whose roles change are signed out, and keep their password", async () => {
    const { rows } = await owner.query("SELECT id FROM person WHERE user_id = 'i.marsh'");
    const session = crypto.randomUUID();
    await owner.query(
      "INSERT INTO session (id, organisation_id, person_id, facility_id, created_at, expires_at) VALUES ($1, $2, $3, $4, now(), now() + interval '1 hour')",
      [session, department.admin.organisationId, rows[0].id, department.admin.facility.id],
    );
    department.clock.add(5);
    const people = "user id,name,roles,initial password\ni.marsh,Ines Marsh,technician|supplies,quite another word\n";
    expect((await importing({ people })).counts).toEqual([{ file: "people", rows: 1, added: 0, changed: 1, same: 0 }]);
    const ended = await owner.query("SELECT ended_at IS NOT NULL AS ended FROM session WHERE id = $1", [session]);
    expect(ended.rows[0].ended).toBe(true);
    const record = await signInRecord(department.database, "i.marsh");
    expect(await passwordMatches(record?.passwordHash ?? "", "change me at once")).toBe(true);
  });

  it("are not for a manager to import, who could make themselves administrator", async () => {
    const manager = await department.person("Mona Falk", ["manager"]);
    expect(await department.run(importDepartment, { files: { people: templates().people } }, manager)).toMatchObject({
      ok: false,
      refusal: "invalid",
      field: "files.people",
    });
    expect(await department.run(importDepartment, { files: { list: templates().list } }, manager)).toMatchObject({
      ok: true,
    });
  });
});

describe("two imports at once", () => {
  it("that both bring the same person end with one person: the second finds it there", async () => {
    const people = "user id,name,roles,initial password\nt.win,Tilda Winther,technician,a password for two\n";
    const both = await Promise.all(
      [1, 2].map(() => department.run(importDepartment, { files: { people } }, department.admin)),
    );
    expect(both.map(({ ok }) => ok)).toEqual([true, true]);
    const counts = both.map((one) => (one.ok ? one.value.reply.counts[0] : null));
    expect(counts.map((count) => count?.added).sort()).toEqual([0, 1]);
    const { rows } = await owner.query("SELECT count(*)::int AS people FROM person WHERE user_id = 't.win'");
    expect(rows).toEqual([{ people: 1 }]);
  });
});

describe("a name that somebody else takes while an import runs", () => {
  const taking = async (take: string, values: unknown[], files: Files) => {
    await owner.query("BEGIN");
    await owner.query(take, values);
    const running = department.run(importDepartment, { files }, department.admin);
    await expect
      .poll(
        async () =>
          (
            await owner.query(
              "SELECT count(*)::int AS waiting FROM pg_locks l JOIN pg_stat_activity a USING (pid) WHERE NOT l.granted AND a.datname = current_database()",
            )
          ).rows[0].waiting,
      )
      .toBeGreaterThan(0);
    await owner.query("COMMIT");
    return running;
  };

  it("refuses the import of a person and leaves no half of it", async () => {
    const people = "user id,name,roles,initial password\nu.nyberg,Una Nyberg,technician,a password for one\n";
    const take =
      "INSERT INTO person (id, organisation_id, user_id, name, created_at) VALUES (gen_random_uuid(), $1, 'u.nyberg', 'Somebody else', now())";
    const outcome = await taking(take, [department.admin.organisationId], { people, zones: "name\nA new zone\n" });
    expect(outcome).toMatchObject({ ok: false, refusal: "moved-on" });
    const { rows } = await owner.query(
      "SELECT (SELECT name FROM person WHERE user_id = 'u.nyberg') AS name, (SELECT count(*)::int FROM pipeline_zone WHERE name = 'A new zone') AS zones",
    );
    expect(rows).toEqual([{ name: "Somebody else", zones: 0 }]);
  });

  it("refuses the import of a model that another facility brings at the same time", async () => {
    const models = templateWith("models", "Marrowby 40", "Marrowby 41");
    const take =
      "INSERT INTO workstation_model (id, organisation_id, maker, name, document) VALUES (gen_random_uuid(), $1, 'Marrowby Apparatus', 'Marrowby 41', '{}')";
    expect(await taking(take, [department.admin.organisationId], { models })).toMatchObject({
      ok: false,
      refusal: "moved-on",
    });
    await owner.query(
      "UPDATE workstation_model SET document = (SELECT document FROM workstation_model WHERE name = 'Marrowby 40') WHERE name = 'Marrowby 41'",
    );
  });
});

describe("history", () => {
  it("says what came in, with counts", async () => {
    const { entries } = await readHistory(department.admin, { limit: 200 }, reading());
    const first = entries.filter(({ command }) => command === "import-department").at(-1);
    expect(first?.text).toMatch(
      /^Imported: 2 suites \(2 added\), 2 pipeline zones \(2 added\), .*2 people \(2 added\), 2 list lines \(2 added\)$/,
    );
  });
});

describe("another department", () => {
  it("comes in at once beside what is there", async () => {
    const { counts } = await importing(example("iso-saltmere"));
    expect(counts.find(({ file }) => file === "rooms")).toEqual({
      file: "rooms",
      rows: 3,
      added: 3,
      changed: 0,
      same: 0,
    });
    const again = await importing(example("iso-saltmere"));
    expect(again.counts.every(({ added, changed }) => added === 0 && changed === 0)).toBe(true);
  });
});
