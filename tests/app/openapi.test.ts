import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { scopeOf } from "@/lib/auth/actor";
import { COMMANDS } from "@/lib/commands/all";
import { PERMISSIONS } from "@/lib/domain/permission";
import { ask } from "@/tests/support/http";
import { answerRest, beginCheck, roomNamed } from "@/tests/support/room-work";
import { type Person, type ServedDepartment, servedDepartment } from "./served-department";

type JsonSchema = Parameters<typeof z.fromJSONSchema>[0];
type Content = Readonly<Record<string, { readonly schema: JsonSchema }>>;
interface Operation {
  readonly summary: string;
  readonly description?: string;
  readonly parameters?: readonly { readonly name: string; readonly in: string; readonly required: boolean }[];
  readonly requestBody?: { readonly content: Content };
  readonly responses: Readonly<Record<string, { readonly content?: Content }>>;
}
interface Description {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, JsonSchema>> };
}

let served: ServedDepartment;
let rosa: Person;
let description: Description;
/** What stands for the braces of a path: things that are there. */
const there: Record<string, string> = {};

beforeAll(async () => {
  served = await servedDepartment();
  const { department } = served;
  rosa = await served.person("rosa.osei", ["technician", "provider", "manager"]);
  const actor = { ...department.admin, personId: rosa.personId, name: "Rosa Osei" };
  const check = await beginCheck(department, "OR 1", actor);
  await answerRest(department, check.id, actor);
  const { roomId } = await roomNamed(department, "OR 1");
  const places = await department.database.inScope(scopeOf(department.admin), (tx) => tx.pipelineZone.findMany());
  const drill = { kind: "power", zoneId: places[0]?.id, drill: true };
  const { eventId } = JSON.parse((await rosa.command("raise-event", drill)).body) as { eventId: string };
  const { tasks } = JSON.parse((await rosa.get("/api/v1/tasks")).body) as { tasks: { key: string }[] };
  Object.assign(there, {
    "/rooms/{id}": roomId,
    "/department-events/{id}": eventId,
    "/workstations/{id}": check.workstation.id,
    "/checks/{id}": check.id,
    "/tasks/{key}": tasks[0]?.key ?? "",
    "/templates/{file}": "rooms.csv",
  });
  description = JSON.parse((await ask(`${served.server.url}/api/v1/openapi.json`)).body) as Description;
}, 300_000);
afterAll(() => served.close());

/** The routes as the folders have them, with the methods that each file exports. */
function routesOnDisk(folder = "app/api/v1"): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const place = path.posix.join(folder, entry.name);
    if (entry.isDirectory()) return routesOnDisk(place);
    if (entry.name !== "route.ts") return [];
    const exported = readFileSync(place, "utf8").matchAll(
      /export (?:async )?(?:const|function) (GET|POST|PUT|PATCH|DELETE)\b/g,
    );
    const address = `/${path.posix.dirname(place).replace("app/", "")}`.replaceAll(/\[(\w+)\]/g, "{$1}");
    return [...exported].map(([, method]) => `${method} ${address}`);
  });
}

const described = () =>
  Object.entries(description.paths).flatMap(([address, methods]) =>
    Object.keys(methods).map((method) => `${method.toUpperCase()} ${address}`),
  );
const reads = () => Object.entries(description.paths).flatMap(([address, { get }]) => (get ? [{ address, get }] : []));

describe("the description of the API", () => {
  it("lists every command and every route, and none that is not there", () => {
    expect(description.openapi).toMatch(/^3\.1\./);
    const generic = "POST /api/v1/commands/{name}";
    /** They describe the API, or the process, and nobody's department. */
    const beside = ["GET /api/v1/openapi.json", "GET /api/v1/health"];
    const onDisk = routesOnDisk();
    expect(onDisk).toContain(generic);
    const commands = Object.keys(PERMISSIONS).map((name) => `POST /api/v1/commands/${name}`);
    expect(described().sort()).toEqual(
      [...onDisk.filter((route) => route !== generic && !beside.includes(route)), ...commands].sort(),
    );
    expect(new Set(Object.keys(PERMISSIONS))).toEqual(
      new Set([...COMMANDS.map(({ name }) => name), "save-draft", "add-facility"]),
    );
  });

  it("says of each command who may give it, what it takes, and how it can be refused", () => {
    for (const [name, roles] of Object.entries(PERMISSIONS)) {
      const post = description.paths[`/api/v1/commands/${name}`]?.post;
      expect(post?.summary).toMatch(/^[A-Z].*\.$/);
      expect(post?.description).toBe(`For: ${roles.join(", ")}.`);
      // A command that is about one of several kinds takes one of several objects; none takes a field that it does not know.
      const schema = post?.requestBody?.content["application/json"]?.schema as { oneOf?: unknown[] } | undefined;
      for (const one of schema?.oneOf ?? [schema])
        expect(one).toMatchObject({ type: "object", additionalProperties: false });
      expect(Object.keys(post?.responses ?? {}).sort()).toEqual([
        "200",
        "400",
        "401",
        "403",
        "404",
        "409",
        "415",
        "422",
        "423",
        // A signature that is missing is asked for.
        ...(COMMANDS.some((command) => command.name === name && command.meaning) ? ["428"] : []),
        "429",
      ]);
    }
    for (const { name } of COMMANDS) {
      const keyed = description.paths[`/api/v1/commands/${name}`]?.post?.parameters?.find(
        (one) => one.name === "Idempotency-Key",
      );
      expect(keyed).toMatchObject({ in: "header", required: false });
    }
  });

  it("holds for what each read answers, to the last field", async () => {
    const at = `?at=${encodeURIComponent(new Date(served.department.clock.now()).toISOString())}`;
    const queries: Record<string, string> = {
      "/api/v1/moments/board": at,
      "/api/v1/moments/rooms/{id}": at,
      "/api/v1/what-if": "?what=pipeline-fails",
      "/api/v1/history": "?limit=200",
      "/api/v1/reports/shift-sheet": "?hours=12",
      "/api/v1/pick-list": "?keys=check%3Anothing",
      "/api/v1/rehearsal": "?seed=7",
    };
    let checked = 0;
    for (const { address, get } of reads()) {
      const [media = "", content] = Object.entries(get.responses["200"]?.content ?? {})[0] ?? [];
      // The stream does not end; its events have tests of their own.
      if (media === "text/event-stream") continue;
      const place = Object.keys(there).find((end) => address.includes(end));
      const concrete = place ? address.replace(/\{\w+\}/, encodeURIComponent(there[place] ?? "")) : address;
      const query = queries[address] ?? (address.includes("/reports/") ? "?from=2099-02-01&to=2099-02-04" : "");
      const { status, headers, body } = await rosa.get(`${concrete}${query}`);
      expect([address, status, String(headers["content-type"]).split(";")[0]]).toEqual([address, 200, media]);
      checked += 1;
      if (media !== "application/json" || !content) continue;
      const schema = z.fromJSONSchema(content.schema);
      const value: unknown = JSON.parse(body);
      const parsed = schema.safeParse(value);
      expect([address, parsed.error?.issues.slice(0, 3)]).toEqual([address, undefined]);
      // A schema that took anything would prove nothing.
      expect([address, schema.safeParse({ ...(value as object), surprise: 1 }).success]).toEqual([address, false]);
    }
    expect(checked).toBeGreaterThanOrEqual(12);
  });

  it("describes a refusal as it comes", async () => {
    const problem = z.fromJSONSchema(description.components.schemas.Problem ?? {});
    for (const answer of [
      await rosa.get("/api/v1/rooms/no-id"),
      await rosa.command("hold-workstation", {}),
      await ask(`${served.server.url}/api/v1/board`),
    ]) {
      expect(problem.safeParse(JSON.parse(answer.body)).error).toBeUndefined();
    }
    expect(problem.safeParse({ title: "no status" }).success).toBe(false);
  });

  it("takes what the commands take, and refuses what they refuse", () => {
    const request = (name: string) =>
      z.fromJSONSchema(
        description.paths[`/api/v1/commands/${name}`]?.post?.requestBody?.content["application/json"]?.schema ?? {},
      );
    const id = "7e2b0a5e-6f57-4f3e-9c0b-0d3f3f1c9a11";
    expect(request("start-check").safeParse({ workstationId: id, kind: "daily" }).success).toBe(true);
    expect(request("start-check").safeParse({ workstationId: id, kind: "weekly" }).success).toBe(false);
    expect(request("start-check").safeParse({ workstationId: id, kind: "daily", extra: 1 }).success).toBe(false);
    expect(
      request("swap-cylinder").safeParse({
        workstationId: id,
        position: "1",
        cylinder: { serial: "OX-1" },
        takenOff: "empty",
        takesOff: null,
      }).success,
    ).toBe(true);
  });
});
