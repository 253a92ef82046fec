import { inject } from "vitest";
import { ensureBuilt } from "@/lib/cli/ensure-built";
import { addFacility } from "@/lib/commands/found";
import { addPerson } from "@/lib/commands/people";
import type { Role } from "@/lib/domain/vocabulary";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { type Answer, type Asking, ask } from "@/tests/support/http";
import { signInByHttp } from "@/tests/support/sign-in";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

/** A Tuesday, 06:10 in Chicago. Far ahead, because a running server's clock is never behind the machine's. */
export const MORNING = "2099-02-03T12:10:00Z";
export const PASSWORD = "a first password of the tests";

export interface Person {
  readonly userId: string;
  readonly personId: string;
  /** A request as this person. */
  ask(path: string, asking?: Asking): Promise<Answer>;
  get(path: string): Promise<Answer>;
  post(path: string, body: unknown, headers?: Readonly<Record<string, string>>): Promise<Answer>;
  command(name: string, input: unknown, key?: string): Promise<Answer>;
}

export interface ServedDepartment {
  readonly department: SmallDepartment;
  readonly server: AppServer;
  readonly otherFacilityId: string;
  /** Adds somebody and signs them in over HTTP. */
  person(userId: string, roles: readonly Role[]): Promise<Person>;
  signedIn(userId: string, password: string, personId: string): Promise<Person>;
  close(): Promise<void>;
}

export const problemOf = ({ body }: Answer): Record<string, unknown> => JSON.parse(body) as Record<string, unknown>;

/** A department of three rooms behind the production server, and a second, empty facility beside it. */
export async function servedDepartment(environment: Readonly<Record<string, string>> = {}): Promise<ServedDepartment> {
  await ensureBuilt((line) => process.stdout.write(`${line}\n`));
  const department = await widerDepartment(MORNING);
  const second = { name: "Alder Ridge East", timeZone: "Europe/London", scheme: "ISO", pressureUnit: "bar" } as const;
  const added = await addFacility(department, second, department.admin);
  if (!added.ok) throw new Error(added.message);
  const server = await startAppServer({ database: department, now: department.clock.now(), environment });
  const signedIn = async (userId: string, password: string, personId: string) => {
    const who = personWith(server.url, await signInByHttp(server.url, userId, password), { userId, personId });
    // Whoever has roles in both facilities may begin in either.
    const moved = await who.post("/api/v1/session", { facilityId: department.admin.facility.id });
    if (moved.status !== 200) throw new Error(`${userId} has no role in the first facility: ${moved.body}`);
    return who;
  };
  return {
    department,
    server,
    otherFacilityId: added.value.facilityId,
    signedIn,
    person: async (userId, roles) => {
      const person = { userId, name: nameOf(userId), roles: [...roles], password: PASSWORD };
      const { personId } = await department.must(addPerson, person, department.admin);
      return signedIn(userId, PASSWORD, personId);
    },
    close: async () => {
      await server.stop();
      await department.close();
    },
  };
}

/** "rosa.osei" is Rosa Osei. */
const nameOf = (userId: string): string =>
  userId.replace(/(^|\.)(\w)/g, (_, dot: string, letter: string) => `${dot && " "}${letter.toUpperCase()}`);

function personWith(url: string, cookie: string, who: Pick<Person, "userId" | "personId">): Person {
  const asked: Person["ask"] = (path, { headers, ...asking } = {}) =>
    ask(`${url}${path}`, { ...asking, headers: { Cookie: cookie, ...headers } });
  const post: Person["post"] = (path, body, headers = {}) => {
    const text = typeof body === "string" ? body : JSON.stringify(body);
    const sent = { "Content-Type": "application/json", "Content-Length": Buffer.byteLength(text), ...headers };
    return asked(path, { method: "POST", body: text, headers: sent });
  };
  return {
    ...who,
    ask: asked,
    get: (path) => asked(path),
    post,
    command: (name, input, key) => post(`/api/v1/commands/${name}`, input, key ? { "Idempotency-Key": key } : {}),
  };
}

/** Does the text show how the product is made: a stack, a file, SQL, a table, the database's own words? */
export function insidesIn(text: string): string[] {
  const insides = [
    /\bat \S+ \(?(file:|\/|node:)/,
    /node_modules|\.tsx?\b|\.next\b/,
    /\b(select|insert|update|delete)\b[^.]{0,80}\b(from|into|set)\b/i,
    /prisma|postgres|pg_|\bP\d{4}\b|SQLSTATE|relation "|violates/i,
    /\bfact\.|\bderived\.|history\.(leaf|frontier)/,
    new RegExp(inject("testCluster").folder),
    /TypeError|ReferenceError|undefined is not|Cannot read/,
  ];
  return insides.filter((pattern) => pattern.test(text)).map(String);
}
