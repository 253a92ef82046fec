import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { holdWorkstation } from "@/lib/commands/hold";
import { startCheck } from "@/lib/commands/start-check";
import { readBoard } from "@/lib/queries/board";
import type { Scope } from "@/lib/storage/client";
import { contentsOf, DENIED, refusalOf, scoped } from "@/tests/support/postgres";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { foundedFacility } from "./facilities";

let department: SmallDepartment;
let here: Scope;
let stranger: Scope;
let app: pg.Client;

beforeAll(async () => {
  department = await smallDepartment();
  const { admin, clock, database } = department;
  here = { organisationId: admin.organisationId, facilityId: admin.facility.id };
  stranger = await foundedFacility(department, "Tern Hollow");
  const technician = await department.person("Rosa Osei", ["technician"]);
  const { rooms } = await readBoard(admin, { database, now: clock.now });
  const workstationId = rooms.find(({ workstation }) => workstation)?.workstation?.id ?? "";
  await department.must(startCheck, { workstationId, kind: "daily" }, technician);
  await department.must(holdWorkstation, { workstationId, reason: "The bellows make a noise." }, technician);
  app = new pg.Client({ connectionString: department.appUrl });
  await app.connect();
});

afterAll(async () => {
  await app.end();
  await department.close();
});

/** What may change on a fact once it is there: only how it ended. */
const CLOSING: Readonly<Record<string, readonly string[]>> = {
  check_correction: [],
  check_run: [],
  check_takeover: [],
  claim: ["outcome", "to"],
  delivery: ["attempts", "next_at", "problem", "sent_at"],
  department_event: ["end_reason", "ended_at", "ended_by"],
  emergency_use: [],
  equipment_event: [],
  escalation: ["answered_at", "ended_at", "outcome"],
  fault_report: ["conclusion", "looked_at", "looked_at_by"],
  fitting: ["to"],
  hold: ["lift_reason", "lifted_at", "lifted_by"],
  limit_allowance: ["revoke_reason", "revoked_at", "revoked_by"],
  list_version: [],
  message: [],
  observation: [],
  occupancy: ["to"],
  placement: ["to"],
  rule_change: ["decided_at", "decided_by", "decided_role", "decision", "decision_reason", "settings_version"],
  self_test_start: [],
  service_version: [],
  settings_version: [],
  signature: [],
  task_step: [],
  vapor_free_request: ["withdrawn_at", "withdrawn_by"],
};

const tried = (statement: string, scope: Scope = here) => refusalOf(scoped(app, scope, () => app.query(statement)));

describe("what the application's role may write", () => {
  it("facts: insert, and close; no other column ever, and no delete", async () => {
    const { rows } = await app.query<{ name: string; whole: string[]; columns: string[] }>(`
      SELECT c.relname AS name,
        ARRAY(SELECT p FROM unnest('{INSERT,UPDATE,DELETE,TRUNCATE,REFERENCES,TRIGGER}'::text[]) p WHERE has_table_privilege(c.oid, p)) AS whole,
        ARRAY(SELECT a.attname::text FROM pg_attribute a WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND has_column_privilege(c.oid, a.attnum, 'UPDATE') ORDER BY 1) AS columns
      FROM pg_class c WHERE c.relnamespace = 'fact'::regnamespace AND c.relkind = 'r' ORDER BY 1`);
    const expected = Object.entries(CLOSING).map(([name, columns]) => ({ name, whole: ["INSERT"], columns }));
    expect(rows).toEqual(expected);
  });

  it("a fact that is there refuses the statement itself", async () => {
    const before = await contentsOf(department.appUrl, here);
    expect(before["fact.hold"]).toMatch(/^1:/);
    const statements = [
      "UPDATE fact.hold SET reason = 'nothing'",
      "UPDATE fact.check_run SET started_by = gen_random_uuid()",
      'UPDATE fact.fitting SET "from" = now()',
      "UPDATE fact.observation SET verdict = 'pass'",
      "DELETE FROM fact.hold",
      "DELETE FROM fact.signature",
      "TRUNCATE fact.observation CASCADE",
      "DROP TABLE fact.claim",
    ];
    for (const statement of statements) expect([statement, await tried(statement)]).toEqual([statement, DENIED]);
    expect(await contentsOf(department.appUrl, here)).toEqual(before);
  });

  it("history: not one row by its own hand, neither its own nor another facility's", async () => {
    const before = await contentsOf(department.appUrl, here);
    const values = `('${here.facilityId}', 999, now(), '{}', '\\x00')`;
    const statements = [
      `INSERT INTO history.leaf (facility_id, sequence, at, body, hash) VALUES ${values}`,
      "UPDATE history.leaf SET body = replace(body, 'Imported', 'Exported')",
      "DELETE FROM history.leaf WHERE sequence = 0",
      "TRUNCATE history.leaf",
      `INSERT INTO history.frontier (facility_id, size, last_at) VALUES ('${here.facilityId}', 0, now())`,
      "UPDATE history.frontier SET size = size - 1",
      "DELETE FROM history.frontier",
    ];
    for (const statement of statements) expect([statement, await tried(statement)]).toEqual([statement, DENIED]);
    expect(await contentsOf(department.appUrl, here)).toEqual(before);
  });

  it("history: the one function appends to the scope's own facility and to no other", async () => {
    const append = (facilityId: string) => `SELECT * FROM history.append_leaf('${facilityId}', now(), '{}')`;
    const before = await contentsOf(department.appUrl, stranger);
    expect(await tried(append(stranger.facilityId), here)).toBe("P0002");
    expect(await contentsOf(department.appUrl, stranger)).toEqual(before);
    expect(await tried(append(here.facilityId), here)).toBe("done");
  });

  it("passwords: neither read nor written, but through the functions of signing in", async () => {
    for (const statement of [
      "SELECT * FROM person_secret",
      "SELECT password_hash FROM person_secret LIMIT 1",
      "UPDATE person_secret SET password_hash = ''",
      "DELETE FROM person_secret",
    ])
      expect([statement, await tried(statement)]).toEqual([statement, DENIED]);
    const secretOf = (personId: string, scope: Scope) =>
      scoped(app, scope, async () => (await app.query("SELECT password_of($1) AS hash", [personId])).rows[0]?.hash);
    expect(await secretOf(department.admin.personId, here)).toMatch(/^\$argon2id\$/);
    expect(await secretOf(department.admin.personId, stranger)).toBeNull();
    const store = `SELECT store_password('${department.admin.personId}', 'x', now())`;
    expect(await tried(store, stranger)).toBe(DENIED);
  });

  it("the organisation and the list of migrations: read alone", async () => {
    expect(await tried("UPDATE organisation SET name = 'Another'")).toBe(DENIED);
    expect(await tried("INSERT INTO organisation (id, name) VALUES (gen_random_uuid(), 'Another')")).toBe(DENIED);
    expect(await tried("DELETE FROM _prisma_migrations")).toBe(DENIED);
    expect(await tried("CREATE TABLE public.own (id int)")).toBe(DENIED);
    expect(await tried("CREATE TABLE fact.own (id int)")).toBe(DENIED);
  });
});
