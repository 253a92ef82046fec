import type { ClientBase } from "pg";

/** Whose rows a session sees of a table, and so how often it has to be read to have them all. */
export type Reach = "whole" | "organisation" | "facility";

export interface Table {
  /** As SQL writes it, quoted where it must be. */
  readonly name: string;
  /** Without those the database computes itself. */
  readonly columns: readonly string[];
  readonly reach: Reach;
}

export interface Scope {
  readonly organisation: string;
  readonly facility: string;
}

/** Who is signed in, and who tried how often: of no use anywhere else, and better not alive again. */
const LEFT_OUT = ["public.session", "public.rate_limit", "public._prisma_migrations"];

interface Row {
  readonly name: string;
  readonly columns: string[];
  readonly secured: boolean;
  readonly open: boolean;
  readonly by_facility: boolean;
  readonly by_organisation: boolean;
  readonly after: string[];
}

/** Every table, those that others refer to first. */
export async function tablesOf(client: ClientBase): Promise<Table[]> {
  const { rows } = await client.query<Row>(TABLES, [LEFT_OUT]);
  return inOrder(rows).map(({ name, columns, ...row }) => ({ name, columns, reach: reachOf(name, row) }));
}

function reachOf(name: string, row: Omit<Row, "name" | "columns">): Reach {
  if (!row.secured || row.open) return "whole";
  if (row.by_facility) return "facility";
  if (row.by_organisation) return "organisation";
  throw new Error(`${name} has a policy of row-level security that a backup does not know: rows could be missing.`);
}

/** A row goes in after the rows it refers to. */
function inOrder(rows: readonly Row[]): Row[] {
  const placed = new Set<string>();
  const order: Row[] = [];
  while (order.length < rows.length) {
    const next = rows.filter(({ name, after }) => !placed.has(name) && after.every((one) => placed.has(one)));
    if (next.length === 0) throw new Error("tables refer to each other in a ring");
    for (const row of next) placed.add(row.name);
    order.push(...next);
  }
  return order;
}

const TABLES = `
  WITH t AS (
    SELECT c.oid, format('%I.%I', n.nspname, c.relname) AS name, c.relrowsecurity AS secured
    FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
    WHERE c.relkind = 'r' AND n.nspname IN ('public', 'fact', 'derived', 'history')
      AND NOT format('%I.%I', n.nspname, c.relname) = ANY ($1)
  )
  SELECT t.name, t.secured,
    ARRAY(SELECT format('%I', a.attname) FROM pg_attribute a
      WHERE a.attrelid = t.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' ORDER BY a.attnum) AS columns,
    (SELECT r.rolsuper OR r.rolbypassrls FROM pg_roles r WHERE r.rolname = current_user)
      OR EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = t.oid AND pg_get_expr(p.polqual, p.polrelid) = 'true'
      AND (p.polroles = '{0}' OR (SELECT r.oid FROM pg_roles r WHERE r.rolname = current_user) = ANY (p.polroles))) AS open,
    EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = t.oid AND p.polname = 'by_facility') AS by_facility,
    EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = t.oid AND p.polname = 'by_organisation') AS by_organisation,
    ARRAY(SELECT DISTINCT other.name FROM pg_constraint k JOIN t other ON other.oid = k.confrelid
      WHERE k.conrelid = t.oid AND k.contype = 'f' AND k.confrelid <> t.oid) AS after
  FROM t ORDER BY t.name`;

export async function scopesOf(client: ClientBase): Promise<Scope[]> {
  const { rows } = await client.query<Scope>(
    "SELECT organisation_id::text AS organisation, facility_id::text AS facility FROM public.facility_ids() ORDER BY 1, 2",
  );
  return rows;
}

/** What a session of the owner sees until the transaction ends: the rows of this facility and its organisation. */
export async function seeScope(client: ClientBase, { organisation, facility }: Scope): Promise<void> {
  await client.query("SELECT set_config('app.organisation', $1, true), set_config('app.facility', $2, true)", [
    organisation,
    facility,
  ]);
}

export async function migrationsOf(client: ClientBase): Promise<string[]> {
  const { rows } = await client.query<{ name: string }>(
    "SELECT migration_name AS name FROM public._prisma_migrations WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY 1",
  );
  return rows.map(({ name }) => name);
}
