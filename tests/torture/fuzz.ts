import { createHash } from "node:crypto";
import pg from "pg";
import { addFacility } from "@/lib/commands/found";
import { addPerson } from "@/lib/commands/people";
import { type Dice, dice } from "@/lib/domain/dice";
import { ROLES } from "@/lib/domain/vocabulary";
import { type BenchDepartment, CLOCK } from "@/tests/bench/department";
import type { Line } from "@/tests/bench/report";
import { type Answer, ask } from "@/tests/support/http";
import { signInByHttp } from "@/tests/support/sign-in";
import { type Attack, attackOn, type Operation, operationsIn } from "./attack";
import type { MortalServer } from "./mortal-server";
import type { Json } from "./schema-values";

const ATTACKERS = 24;
const AT_ONCE = 6;
const PASSWORD = "an attacker with every role";
const SLOW_MS = 10_000;
type Tell = (done: number, total: number, what: string) => void;

interface Seen {
  readonly statuses: Map<number, number>;
  readonly wrong: string[];
  slowest: number;
}

/** Malformed and hostile requests on every route of the API's own description, by people who may do everything in their own facility. */
export async function fuzz(
  department: BenchDepartment,
  server: MortalServer,
  superuserUrl: string,
  count: number,
  seed: number,
  tell: Tell,
): Promise<Line[]> {
  const foreign = await foreignFacility(department);
  const before = await digestOf(superuserUrl, foreign);
  const attackers = await signedIn(department, server.url);
  const operations = operationsIn(
    JSON.parse(
      (await ask(`${server.url}/api/v1/openapi.json`, { headers: { Cookie: attackers[0]?.cookie } })).body,
    ) as Json,
  );
  const throws = dice(seed);
  const known = [
    ...new Set(
      (await ask(`${server.url}/api/v1/board`, { headers: { Cookie: attackers[0]?.cookie } })).body.match(UUID) ?? [],
    ),
    foreign,
  ];
  const seen: Seen = { statuses: new Map(), wrong: [], slowest: 0 };
  let next = 0;
  const attack = async (): Promise<void> => {
    while (next < count) {
      const number = next;
      next += 1;
      tell(number, count, "requests");
      await one(
        server.url,
        operations[number % operations.length] as Operation,
        attackers[number % attackers.length] as Attacker,
        throws,
        known,
        seen,
      );
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, attack));
  const health = await ask(`${server.url}/api/v1/health`);
  if (health.status !== 200) seen.wrong.push(`afterwards the application says ${health.status}`);
  if ((await digestOf(superuserUrl, foreign)) !== before) seen.wrong.push("rows of the other facility were changed");
  return report(operations, count, seed, seen);
}

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;

interface Attacker {
  readonly userId: string;
  cookie: string;
}

async function one(
  url: string,
  operation: Operation,
  attacker: Attacker,
  throws: Dice,
  known: readonly string[],
  seen: Seen,
): Promise<void> {
  const attack = attackOn(operation, throws, known);
  const started = performance.now();
  const answer = await send(url, attack, attacker.cookie);
  const took = performance.now() - started;
  seen.slowest = Math.max(seen.slowest, took);
  seen.statuses.set(answer.status, (seen.statuses.get(answer.status) ?? 0) + 1);
  const said = `${attack.method} ${attack.path.slice(0, 120)} ${attack.body?.slice(0, 200) ?? ""}: ${answer.status} ${answer.body.slice(0, 200)}`;
  if (answer.status === 0 || answer.status >= 500) seen.wrong.push(said);
  if (took > SLOW_MS) seen.wrong.push(`${Math.round(took)} ms: ${said}`);
  // A session that the attack itself ended or locked.
  if (answer.status === 401 || answer.status === 423)
    attacker.cookie = await signInByHttp(url, attacker.userId, PASSWORD);
}

async function send(url: string, { method, path, headers, body }: Attack, cookie: string): Promise<Answer> {
  // A stream does not end; its head is enough.
  if (path.endsWith("/events") && method === "GET") return head(`${url}${path}`, cookie);
  try {
    return await ask(`${url}${path}`, {
      method,
      headers: { Cookie: cookie, ...headers },
      ...(body === undefined ? {} : { body }),
    });
  } catch (error) {
    // A body that is too large may be answered by closing the door on it.
    const cut = (body?.length ?? 0) > 1_000_000;
    return { status: cut ? 413 : 0, headers: {}, body: String(error) };
  }
}

async function head(url: string, cookie: string): Promise<Answer> {
  const stop = new AbortController();
  const response = await fetch(url, { headers: { cookie }, signal: stop.signal });
  stop.abort();
  return { status: response.status, headers: {}, body: "" };
}

async function foreignFacility(department: BenchDepartment): Promise<string> {
  const facility = { name: "Another House", timeZone: "Europe/London", scheme: "ISO", pressureUnit: "bar" } as const;
  const added = await addFacility({ database: department.database, clock: CLOCK }, facility, department.administrator);
  if (!added.ok) throw new Error(added.message);
  return added.value.facilityId;
}

async function signedIn(department: BenchDepartment, url: string): Promise<Attacker[]> {
  const attackers: Attacker[] = [];
  for (let number = 0; number < ATTACKERS; number += 1) {
    const userId = `attacker.${number}`;
    await department.must(
      addPerson,
      { userId, name: `Attacker ${number}`, roles: [...ROLES], password: PASSWORD },
      department.administrator,
    );
    attackers.push({ userId, cookie: await signInByHttp(url, userId, PASSWORD) });
  }
  return attackers;
}

/** Every row of a facility, in every table that has one. */
async function digestOf(superuserUrl: string, facility: string): Promise<string> {
  const client = new pg.Client({ connectionString: superuserUrl });
  await client.connect();
  const hash = createHash("sha256");
  const { rows: tables } = await client.query<{ name: string }>(
    `SELECT format('%I.%I', table_schema, table_name) AS name FROM information_schema.columns
     WHERE column_name = 'facility_id' AND table_schema IN ('public', 'fact', 'derived', 'history') AND table_name <> 'session' ORDER BY 1`,
  );
  for (const { name } of tables) {
    const { rows } = await client.query<{ text: string }>(
      `SELECT t::text AS text FROM ${name} t WHERE facility_id = $1 ORDER BY 1`,
      [facility],
    );
    hash.update(name + rows.map(({ text }) => text).join("\n"));
  }
  await client.end();
  return hash.digest("hex");
}

function report(
  operations: readonly Operation[],
  count: number,
  seed: number,
  { statuses, wrong, slowest }: Seen,
): Line[] {
  const answers = [...statuses].sort(([left], [right]) => left - right).map(([status, times]) => `${status}: ${times}`);
  return [
    {
      what: `Malformed and hostile requests over ${operations.length} operations (seed ${seed})`,
      value: `${count}; answers ${answers.join(", ")}`,
    },
    { what: "The slowest answer", value: `${Math.round(slowest)} ms` },
    {
      what: "Answered with a server error, not within ten seconds, or with a row of another facility changed",
      value: wrong.length === 0 ? "none" : `${wrong.length}\n      ${wrong.slice(0, 10).join("\n      ")}`,
      target: { atMost: 0, unit: "found", reached: wrong.length },
    },
  ];
}
