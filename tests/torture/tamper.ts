import pg from "pg";
import { VERIFYING_TOOLS } from "@/lib/auth/head-keys";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { type Dice, dice } from "@/lib/domain/dice";
import { verifyExport } from "@/lib/domain/history/decide";
import type { HistoryExport, SignedHead } from "@/lib/domain/history/model";
import { type Heads, takeHead } from "@/lib/jobs/tree-heads";
import { exportHistory, readHeads } from "@/lib/queries/history-export";
import { historyExport } from "@/lib/schemas/history-export";
import { type BenchDepartment, CLOCK } from "@/tests/bench/department";
import type { Line } from "@/tests/bench/report";

const ENTRIES = 300;
const ENTRIES_A_HEAD = 25;
const SECRET = "a secret of the torture, long enough for its purpose";
/** One change to one row of the history, and what it is called. `$1` is the facility, `$2` the row. */
interface Change {
  readonly what: string;
  readonly table: "leaf" | "frontier" | "tree_head";
  sql(dice: Dice): string;
}

const rehashed = (body: string) => `body = ${body}, hash = sha256('\\x00'::bytea || convert_to(${body}, 'UTF8'))`;
/** The text stays JSON, or an index of the table would refuse it. */
const REWRITES = [
  `replace(body, '"command":"', '"command":"un')`,
  `regexp_replace(body, '"name":"[^"]*"', '"name":"Somebody Else"')`,
  `replace(body, '{', '{ ')`,
  `regexp_replace(body, '"at":"(.{21})..', '"at":"\\100')`,
] as const;

const CHANGES: readonly Change[] = [
  {
    what: "the text of an entry",
    table: "leaf",
    sql: (d) => `UPDATE history.leaf SET body = ${d.pick(REWRITES)}`,
  },
  {
    what: "an entry, and its hash with it",
    table: "leaf",
    sql: () => `UPDATE history.leaf SET ${rehashed(`replace(body, '"command":"', '"command":"un')`)}`,
  },
  { what: "the hash of an entry", table: "leaf", sql: (d) => `UPDATE history.leaf SET hash = ${bitOf("hash", d)}` },
  {
    what: "the time of an entry",
    table: "leaf",
    sql: (d) => `UPDATE history.leaf SET at = at + interval '${d.between(1, 90_000)} milliseconds'`,
  },
  { what: "the number of an entry", table: "leaf", sql: () => "UPDATE history.leaf SET sequence = sequence + 1000000" },
  { what: "an entry removed", table: "leaf", sql: () => "DELETE FROM history.leaf" },
  {
    what: "the root of a tree head",
    table: "tree_head",
    sql: (d) => `UPDATE history.tree_head SET root = ${bitOf("root", d)}`,
  },
  {
    what: "the size of a tree head",
    table: "tree_head",
    sql: (d) => `UPDATE history.tree_head SET size = size + ${d.between(1, 9)}`,
  },
  {
    what: "the time of a tree head",
    table: "tree_head",
    sql: (d) => `UPDATE history.tree_head SET at = at + interval '${d.between(1, 900)} milliseconds'`,
  },
  {
    what: "the signature of a tree head",
    table: "tree_head",
    sql: (d) => `UPDATE history.tree_head SET signature = ${bitOf("signature", d)}`,
  },
  { what: "a tree head removed", table: "tree_head", sql: () => "DELETE FROM history.tree_head" },
  {
    what: "the size of the record",
    table: "frontier",
    sql: (d) => `UPDATE history.frontier SET size = size - ${d.between(1, 5)}`,
  },
  {
    what: "a subtree of the record",
    table: "frontier",
    sql: (d) => `UPDATE history.frontier SET nodes[1] = ${bitOf("nodes[1]", d)}`,
  },
];

function bitOf(column: string, throws: Dice): string {
  const place = throws.between(0, 255);
  return `set_bit(${column}, ${place}, 1 - get_bit(${column}, ${place}))`;
}

/** Random changes made past the application, one at a time; after each a stranger verifies an export against the heads that were kept. */
export async function tamper(
  department: BenchDepartment,
  superuserUrl: string,
  count: number,
  seed: number,
): Promise<Line[]> {
  const record = new Record(department, superuserUrl);
  const throws = dice(seed);
  const found = new Map<string, number>();
  const missed: string[] = [];
  await record.open();
  try {
    await record.fill();
    const untouched = await record.verified();
    if (untouched !== null) throw new Error(`the record does not verify before anything was changed: ${untouched}`);
    for (let number = 0; number < count; number += 1) {
      const change = CHANGES[number % CHANGES.length] as Change;
      const problem = await record.changed(change, throws);
      if (problem === null) missed.push(change.what);
      else found.set(change.what, (found.get(change.what) ?? 0) + 1);
    }
    const after = await record.verified();
    if (after !== null) throw new Error(`the record does not verify after everything was put back: ${after}`);
  } finally {
    await record.close();
  }
  const total = [...found.values()].reduce((sum, one) => sum + one, 0);
  return [
    {
      what: `Random changes of one row each, made as a superuser (seed ${seed}), found by the verifier`,
      value: `${total} of ${count}${missed.length > 0 ? `; missed: ${[...new Set(missed)].join(", ")}` : ""}`,
      target: { atLeast: count, unit: "found", reached: total },
    },
    ...[...found].map(([what, times]) => ({ what, value: `${times} found` })),
  ];
}

class Record {
  readonly #client: pg.Client;
  readonly #heads: Heads;
  readonly #kept: SignedHead[] = [];

  constructor(
    private readonly department: BenchDepartment,
    superuserUrl: string,
  ) {
    this.#client = new pg.Client({ connectionString: superuserUrl });
    this.#heads = { database: department.database, now: CLOCK.now, secret: SECRET, ports: [], report: () => undefined };
  }

  get #scope() {
    const { facility, organisationId } = this.department.technician;
    return { facilityId: facility.id, organisationId };
  }

  async open(): Promise<void> {
    await this.#client.connect();
    await this.#client.query("SET session_replication_role = replica");
  }

  close(): Promise<void> {
    return this.#client.end();
  }

  /** Ordinary work, with a tree head kept elsewhere now and then. */
  async fill(): Promise<void> {
    const { must, technician, rooms, database } = this.department;
    for (let number = 0; number < ENTRIES / 2; number += 1) {
      const workstationId = rooms[number % rooms.length]?.workstation?.id ?? "";
      const { reply } = await must(holdWorkstation, { workstationId, reason: `hissing, ${number}` }, technician);
      await must(liftHold, { workstationId, holdId: reply.holdId, reason: "hose pushed home" }, technician);
      if ((number * 2) % ENTRIES_A_HEAD < 2) await takeHead(this.#heads, this.#scope);
    }
    // All of them, also those that an application took by itself: each is sent away when it is signed.
    this.#kept.push(...(await readHeads(technician, { database, now: CLOCK.now })).heads);
  }

  /** Makes the change, lets somebody verify, and puts the row back. The answer is what the verifier said, or null if it noticed nothing. */
  async changed({ table, sql }: Change, throws: Dice): Promise<string | null> {
    const { rows } = await this.#client.query<{ ctid: string; row: unknown }>(
      `SELECT ctid::text, to_jsonb(t) AS row FROM history.${table} t WHERE facility_id = $1 ORDER BY ${table === "leaf" ? "sequence" : "facility_id"}`,
      [this.#scope.facilityId],
    );
    const { ctid } = throws.pick(rows);
    await this.#client.query(
      `DROP TABLE IF EXISTS pg_temp.before; CREATE TEMP TABLE before AS SELECT * FROM history.${table}`,
    );
    const changed = await this.#client.query(`${sql(throws)} WHERE ctid = $1::tid`, [ctid]);
    if (changed.rowCount !== 1) throw new Error(`the change touched ${changed.rowCount} rows`);
    const problem = await this.verified();
    await this.#client.query(`DELETE FROM history.${table}; INSERT INTO history.${table} SELECT * FROM pg_temp.before`);
    return problem;
  }

  async verified(): Promise<string | null> {
    const head = await takeHead(this.#heads, this.#scope).catch((error: unknown) => String(error));
    if (typeof head === "string") return head;
    let text = "";
    for await (const piece of exportHistory(
      this.department.technician,
      {},
      { database: this.department.database, now: CLOCK.now },
    ))
      text += piece;
    await this.#client.query("DELETE FROM history.tree_head WHERE facility_id = $1 AND at = $2", [
      head.facility,
      head.at,
    ]);
    const read = historyExport.safeParse(JSON.parse(text));
    if (!read.success) return `the export is not whole: ${read.error.issues[0]?.message}`;
    const outcome = verifyExport(read.data as HistoryExport, VERIFYING_TOOLS, this.#kept);
    return outcome.ok ? null : outcome.message;
  }
}
