import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { addFacility } from "@/lib/commands/found";
import type { Scope } from "@/lib/storage/client";
import { createTestDatabase } from "@/tests/support/database";
import { connected, DENIED, refusalOf, scoped, tablesOf } from "@/tests/support/postgres";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { foundedFacility } from "./facilities";
import {
  facilityFaults,
  forSigningIn,
  ORGANISATION_LEVEL,
  SECRETS,
  type TableSecurity,
  tableSecurity,
  WITHOUT_OWNER,
} from "./security-catalog";

let department: SmallDepartment;
let here: Scope;
let sister: Scope;
let stranger: Scope;
let app: pg.Client;
let tables: TableSecurity[];

beforeAll(async () => {
  department = await smallDepartment();
  const { admin, database, clock } = department;
  here = { organisationId: admin.organisationId, facilityId: admin.facility.id };
  const second = { name: "Alder Ridge East", timeZone: "America/Chicago", scheme: "US", pressureUnit: "psi" } as const;
  const added = await addFacility({ database, clock }, second, admin);
  if (!added.ok) throw new Error(added.message);
  sister = { organisationId: here.organisationId, facilityId: added.value.facilityId };
  stranger = await foundedFacility(department, "Tern Hollow");
  app = new pg.Client({ connectionString: department.appUrl });
  await app.connect();
  tables = await tableSecurity(app);
});

afterAll(async () => {
  await app.end();
  await department.close();
});

const named = (names: readonly string[]) => tables.filter(({ name }) => names.includes(name));
const ofFacilities = () =>
  tables.filter(({ name }) => ![...ORGANISATION_LEVEL, ...SECRETS, ...WITHOUT_OWNER].includes(name));
/** How many rows of each table the present scope sees. */
const countsOf = async (names: readonly string[], where = "true"): Promise<number[]> => {
  const parts = names.map((name, order) => `SELECT ${order} AS place, count(*)::int AS n FROM ${name} WHERE ${where}`);
  const { rows } = await app.query<{ n: number }>(`${parts.join(" UNION ALL ")} ORDER BY place`);
  return rows.map(({ n }) => n);
};

describe("row-level security, as the catalog has it", () => {
  it("every table is of a facility, or stands on the short list of those that are not", () => {
    expect(tables.map(({ name }) => name)).toEqual(
      expect.arrayContaining([...ORGANISATION_LEVEL, ...SECRETS, ...WITHOUT_OWNER]),
    );
    expect(ofFacilities().length).toBeGreaterThan(25);
    expect(ofFacilities().flatMap(facilityFaults)).toEqual([]);
  });

  it("a table that somebody adds without facility, force or policy is found", async () => {
    const fresh = await createTestDatabase();
    const added = await connected(fresh.ownerUrl, async (owner) => {
      await owner.query("CREATE TABLE public.note (id uuid PRIMARY KEY, facility_id uuid, text text)");
      await owner.query("CREATE TABLE fact.photo (facility_id uuid, id uuid, PRIMARY KEY (facility_id, id))");
      await owner.query("ALTER TABLE fact.photo ENABLE ROW LEVEL SECURITY");
      await owner.query("CREATE POLICY by_facility ON fact.photo USING (facility_id IS NOT NULL)");
      return (await tableSecurity(owner)).filter(({ name }) => name === "public.note" || name === "fact.photo");
    });
    await fresh.drop();
    expect(added.flatMap(facilityFaults)).toEqual([
      "fact.photo: row-level security is not forced",
      "fact.photo: by_facility says (facility_id IS NOT NULL) and null",
      "public.note: its primary key does not begin with facility_id",
      "public.note: row-level security is off",
      "public.note: row-level security is not forced",
      "public.note: it has no policy by_facility",
    ]);
  });

  it("the organisation's tables have a policy of their own, and passwords none that lets the application in", () => {
    for (const { enabled, forced, policies } of named(ORGANISATION_LEVEL)) {
      const own = policies.filter((policy) => !forSigningIn(policy));
      expect({ enabled, forced, own: own.map(({ name }) => name) }).toEqual({
        enabled: true,
        forced: true,
        own: ["by_organisation"],
      });
      expect(own[0]?.sees).toMatch(/^\((organisation_)?id = current_organisation\(\)\)$/);
      expect(own[0]?.writes).toBe(own[0]?.sees);
    }
    for (const { enabled, forced, policies } of named(SECRETS))
      expect({ enabled, forced, others: policies.filter((policy) => !forSigningIn(policy)) }).toEqual({
        enabled: true,
        forced: true,
        others: [],
      });
  });

  it("the application owns nothing, is nobody else, and may not step around a policy", async () => {
    const { rows } = await app.query(`
      SELECT r.rolsuper, r.rolbypassrls, r.rolcreaterole, r.rolcreatedb, current_user::text AS me,
        (SELECT count(*)::int FROM pg_auth_members m WHERE m.member = r.oid) AS memberships
      FROM pg_roles r WHERE r.rolname = current_user`);
    expect(rows).toEqual([
      {
        rolsuper: false,
        rolbypassrls: false,
        rolcreaterole: false,
        rolcreatedb: false,
        me: "yokeboard_app",
        memberships: 0,
      },
    ]);
    expect(tables.filter(({ owner }) => owner === "yokeboard_app")).toEqual([]);
    expect(await refusalOf(app.query("SET ROLE yokeboard_owner"))).toBe(DENIED);
    expect(await refusalOf(app.query("ALTER TABLE public.room DISABLE ROW LEVEL SECURITY"))).toBe(DENIED);
    await app.query("SET row_security = off");
    expect(await refusalOf(app.query("SELECT * FROM public.room"))).toBe(DENIED);
    await app.query("RESET row_security");
  });

  it("only the listed functions answer, and to the application alone", async () => {
    const { rows } = await app.query<{ name: string }>(`
      SELECT format('%s.%s', n.nspname, p.proname) AS name FROM pg_proc p JOIN pg_namespace n ON n.oid = p.pronamespace
      WHERE n.nspname IN ('public', 'fact', 'derived', 'history') AND p.prosecdef AND has_function_privilege('yokeboard_app', p.oid, 'EXECUTE') ORDER BY 1`);
    expect(rows.map(({ name }) => name)).toEqual([
      "history.append_leaf",
      "public.api_token_used",
      "public.facility_ids",
      "public.find_api_token",
      "public.find_identity",
      "public.find_session",
      "public.find_wall_device",
      "public.found_facility",
      "public.is_founded",
      "public.password_of",
      "public.people_to_try",
      "public.pin_of",
      "public.refresh_statistics",
      "public.role_mappings",
      "public.sessions_on_device",
      "public.sign_in_lookup",
      "public.store_password",
      "public.store_pin",
      "public.user_id_taken",
      "public.wall_device_seen",
    ]);
    const open = await app.query(`
      SELECT p.proname FROM pg_proc p JOIN pg_namespace n ON n.oid = p.pronamespace, aclexplode(coalesce(p.proacl, acldefault('f', p.proowner))) a
      WHERE n.nspname IN ('public', 'fact', 'derived', 'history') AND a.grantee = 0
        AND NOT EXISTS (SELECT FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e')`);
    expect(open.rows).toEqual([]);
  });
});

describe("what the application sees", () => {
  it("of another facility: no row of any table, in the same organisation or outside of it", async () => {
    const names = ofFacilities().map(({ name }) => name);
    const mine = await scoped(app, here, () => countsOf(names));
    const filled = names.filter((_, order) => (mine[order] ?? 0) > 0);
    expect(filled.length).toBeGreaterThan(18);
    for (const scope of [sister, stranger]) {
      const leaked = await scoped(app, scope, () => countsOf(filled, `facility_id = '${here.facilityId}'`));
      expect(leaked).toEqual(filled.map(() => 0));
    }
  });

  it("of another organisation: no person, session, facility or model", async () => {
    const names = ["public.person", "public.workstation_model", "public.facility"];
    const seen = (organisationId: string) => countsOf(names, `organisation_id = '${organisationId}'`);
    expect(await scoped(app, here, () => seen(here.organisationId))).toEqual([3, 2, 2]);
    expect(await scoped(app, here, () => seen(stranger.organisationId))).toEqual([0, 0, 0]);
    expect(await scoped(app, stranger, () => seen(here.organisationId))).toEqual([0, 0, 0]);
    expect(await scoped(app, stranger, () => seen(stranger.organisationId))).toEqual([1, 0, 1]);
  });

  it("through the product's own client with another scope: nothing, and nothing can be written there", async () => {
    const { database } = department;
    const rooms = (scope: Scope) => database.inScope(scope, (tx) => tx.room.findMany());
    const [room] = await rooms(here);
    if (!room) throw new Error("the department has no room");
    expect(await rooms(sister)).toEqual([]);
    expect(await database.inScope(sister, (tx) => tx.room.updateMany({ data: { name: "Taken over" } }))).toEqual({
      count: 0,
    });
    expect(await database.inScope(sister, (tx) => tx.room.findFirst({ where: { id: room.id } }))).toBeNull();
    const smuggled = database.inScope(sister, (tx) =>
      tx.suite.create({
        data: { facilityId: here.facilityId, id: crypto.randomUUID(), name: "Smuggled", walkingOrder: 9 },
      }),
    );
    await expect(smuggled).rejects.toThrow(/row-level security/);
    expect((await rooms(here)).map(({ name }) => name)).not.toContain("Taken over");
  });

  it("without a scope: nothing at all, also on a connection that had one before", async () => {
    const names = (await tablesOf(app)).filter((name) => ![...SECRETS, ...WITHOUT_OWNER].includes(name));
    const fresh = await connected(department.appUrl, async (client) => (await client.query("SELECT * FROM room")).rows);
    expect(fresh).toEqual([]);
    expect(await scoped(app, here, () => countsOf(["public.room"]))).toEqual([2]);
    // The pooled session keeps '' where nothing was: a bare cast of it would throw.
    expect((await app.query("SELECT current_setting('app.facility', true) AS kept")).rows).toEqual([{ kept: "" }]);
    expect(await countsOf(names)).toEqual(names.map(() => 0));
  });
});
