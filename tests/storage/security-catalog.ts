import type pg from "pg";

/** What PostgreSQL's own catalog says of one table's row-level security. */
export interface TableSecurity {
  readonly name: string;
  readonly owner: string;
  readonly facilityFirst: boolean;
  readonly enabled: boolean;
  readonly forced: boolean;
  readonly policies: readonly {
    readonly name: string;
    readonly roles: readonly string[];
    readonly command: string;
    readonly sees: string | null;
    readonly writes: string | null;
  }[];
}

/** Every table outside PostgreSQL's own schemas: a new schema is seen, too. */
export async function tableSecurity(client: pg.Client): Promise<TableSecurity[]> {
  const { rows } = await client.query<TableSecurity>(`
    SELECT format('%s.%s', n.nspname, c.relname) AS name, pg_get_userbyid(c.relowner) AS owner,
      coalesce((SELECT a.attname = 'facility_id' AND a.attnotnull FROM pg_index i
                JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum = i.indkey[0] WHERE i.indrelid = c.oid AND i.indisprimary), false) AS "facilityFirst",
      c.relrowsecurity AS enabled, c.relforcerowsecurity AS forced,
      (SELECT coalesce(json_agg(json_build_object('name', p.policyname, 'roles', p.roles::text[], 'command', p.cmd, 'sees', p.qual, 'writes', p.with_check) ORDER BY p.policyname), '[]')
       FROM pg_policies p WHERE p.schemaname = n.nspname AND p.tablename = c.relname) AS policies
    FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
    WHERE c.relkind IN ('r', 'p') AND n.nspname <> 'information_schema' AND n.nspname NOT LIKE 'pg\\_%'
    ORDER BY 1`);
  return rows;
}

/** Tables of the organisation as a whole: its people work in several facilities, and a model is the same in each. */
export const ORGANISATION_LEVEL = [
  "public.facility",
  "public.organisation",
  "public.person",
  "public.person_identity",
  "public.session",
  "public.workstation_model",
];

/** Passwords: no policy lets the application in, and no grant. */
export const SECRETS = ["public.person_secret"];

/** Nothing of anybody's: the list of migrations, and the counters of sign-in attempts, which are kept before anybody is known. */
export const WITHOUT_OWNER = ["public._prisma_migrations", "public.rate_limit"];

/** What is wrong with a table that should belong to a facility; empty when nothing is. */
export function facilityFaults({ name, facilityFirst, enabled, forced, policies }: TableSecurity): string[] {
  const own = policies.find((policy) => policy.name === "by_facility");
  const rule = "(facility_id = current_facility())";
  const faults = [
    facilityFirst ? "" : "its primary key does not begin with facility_id",
    enabled ? "" : "row-level security is off",
    forced ? "" : "row-level security is not forced",
    own ? "" : "it has no policy by_facility",
    own && (own.sees !== rule || own.writes !== rule) ? `by_facility says ${own.sees} and ${own.writes}` : "",
    own && own.command !== "ALL" ? `by_facility is for ${own.command} alone` : "",
    ...policies
      .filter((policy) => policy.name !== "by_facility" && !forSigningIn(policy))
      .map((policy) => `the policy ${policy.name} opens it further`),
  ];
  return faults.filter(Boolean).map((fault) => `${name}: ${fault}`);
}

/** Signing in comes before any scope; the policy is for the owner's few functions, never for the application. */
export const forSigningIn = ({ name, roles }: TableSecurity["policies"][number]): boolean =>
  name === "sign_in" && roles.length === 1 && roles[0] === "yokeboard_owner";
