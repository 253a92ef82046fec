import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { problemDetails } from "@/lib/schemas/problem";
import { type Answer, ask } from "@/tests/support/http";
import { roomNamed, workstationIn } from "@/tests/support/room-work";
import { insidesIn, type Person, type ServedDepartment, servedDepartment } from "./served-department";

let served: ServedDepartment;
let rosa: Person;
let karl: Person;
let workstationId: string;
let roomId: string;

beforeAll(async () => {
  served = await servedDepartment();
  rosa = await served.person("rosa.osei", ["technician"]);
  karl = await served.person("karl.brandt", ["provider"]);
  workstationId = await workstationIn(served.department, "OR 1");
  roomId = (await roomNamed(served.department, "OR 1")).roomId;
}, 300_000);
afterAll(() => served.close());

const UNKNOWN = "00000000-0000-4000-8000-000000000000";

/** The answer is a problem document of this status and kind, complete, and shows nothing of the inside. */
function refused({ status, headers, body }: Answer, expected: number, kind: string) {
  expect(`${status} ${body}`).toMatch(new RegExp(`^${expected} `));
  expect(headers["content-type"]).toBe("application/problem+json");
  expect(headers["cache-control"]).toBe("no-store");
  expect(insidesIn(body)).toEqual([]);
  const problem = problemDetails.parse(JSON.parse(body));
  expect(problem).toMatchObject({ type: `urn:yokeboard:problem:${kind}`, status: expected });
  expect(problem.title).not.toBe("");
  expect(problem.detail).toMatch(/^\S/);
  return problem;
}
const hold = (reason: unknown = "A hiss at the yoke.") => ({ workstationId, reason });
const opened = async (who: Person) =>
  (JSON.parse((await who.command("start-check", { workstationId, kind: "daily" })).body) as { checkId: string })
    .checkId;

describe("who asks", () => {
  it.each([
    "board",
    "session",
    "tasks",
    "people",
    "history",
    "events",
    "rooms/x",
    "rooms/x/evidence",
    "checks/x",
    "tasks/x",
    "reports/check-completion?from=2099-02-03&to=2099-02-03",
    "reports/check-completion.csv?from=2099-02-03&to=2099-02-03",
    "history?limit=many",
  ])("401: nobody reads %s without signing in", async (path) => {
    refused(await ask(`${served.server.url}/api/v1/${path}`), 401, "sign-in-required");
  });

  it("401: nobody writes without signing in, whatever they send", async () => {
    const headers = { "Content-Type": "application/json", "Content-Length": 2 };
    for (const path of [
      "commands/hold-workstation",
      "commands/save-draft",
      "commands/add-facility",
      "imports/preview",
      "session",
    ])
      refused(
        await ask(`${served.server.url}/api/v1/${path}`, { method: "POST", headers, body: "{}" }),
        401,
        "sign-in-required",
      );
  });

  it("403: a role that may not is told so by name", async () => {
    const { detail } = refused(
      await karl.command("swap-cylinder", {
        workstationId,
        position: "1",
        cylinder: { serial: "OX-50003" },
        takenOff: "empty",
      }),
      403,
      "not-allowed",
    );
    expect(detail).toBe("Karl Brandt may not swap cylinder in Alder Ridge.");
    refused(await rosa.post("/api/v1/imports/preview", { files: {} }), 403, "not-allowed");
    refused(
      await rosa.command("add-facility", {
        name: "Another",
        timeZone: "Europe/London",
        scheme: "ISO",
        pressureUnit: "bar",
      }),
      403,
      "not-allowed",
    );
  });
});

describe("where it comes from", () => {
  it.each<Record<string, string>>([
    { Origin: "https://evil.example" },
    { Origin: "null" },
    { "Sec-Fetch-Site": "cross-site" },
    { "Sec-Fetch-Site": "same-site", Origin: "http://127.0.0.1:1" },
    { Origin: "https://evil.example", "Sec-Fetch-Site": "same-origin" },
  ])("403: a write from somebody else's page, %j", async (headers) => {
    for (const path of ["commands/hold-workstation", "commands/save-draft", "session", "imports/preview"])
      refused(await rosa.post(`/api/v1/${path}`, hold(), headers), 403, "foreign-origin");
  });

  it("a write from its own page or from a program goes through", async () => {
    const own: Record<string, string>[] = [{ Origin: served.server.url, "Sec-Fetch-Site": "same-origin" }, {}];
    for (const headers of own)
      expect((await rosa.post("/api/v1/commands/start-check", { workstationId, kind: "daily" }, headers)).status).toBe(
        200,
      );
  });

  it("415: a form, text or nothing, which a foreign page could send without asking", async () => {
    for (const type of [
      "application/x-www-form-urlencoded",
      "text/plain",
      "multipart/form-data; boundary=x",
      "application/jsonp",
      "",
    ])
      refused(await rosa.post("/api/v1/commands/hold-workstation", hold(), { "Content-Type": type }), 415, "not-json");
    expect(
      (
        await rosa.post(
          "/api/v1/commands/start-check",
          { workstationId, kind: "daily" },
          { "Content-Type": "application/json; charset=utf-8" },
        )
      ).status,
    ).toBe(200);
  });

  it("421: a host that nobody configured", async () => {
    const { status, headers, body } = await rosa.ask("/api/v1/board", { headers: { Host: "rebound.example" } });
    expect([status, headers["content-type"]]).toEqual([421, "application/problem+json"]);
    expect(insidesIn(body)).toEqual([]);
  });

  it("nothing that was refused so far was done", async () => {
    expect((await roomNamed(served.department, "OR 1")).headlineRule).not.toBe("held");
  });
});

describe("what is asked", () => {
  it("400: not JSON, cut off, or a bad key", async () => {
    for (const text of ["{", "", "reason=x", '{"a":1}}', "\u0000"])
      refused(await rosa.post("/api/v1/commands/hold-workstation", text), 400, "not-json");
    for (const key of ["short", "with space in", "x".repeat(129)])
      refused(await rosa.command("hold-workstation", hold(), key), 400, "bad-key");
  });

  it("404: a command, room, check, task or page of the API that is not there", async () => {
    refused(await rosa.command("launch-rocket", {}), 404, "not-found");
    refused(await rosa.command("constructor", {}), 404, "not-found");
    for (const path of [
      `rooms/${UNKNOWN}`,
      `rooms/${UNKNOWN}/evidence`,
      "rooms/no-id",
      "rooms/no-id/evidence",
      `checks/${UNKNOWN}`,
      "checks/no-id",
      "tasks/check:nothing",
    ])
      refused(await rosa.get(`/api/v1/${path}`), 404, "not-found");
    const { errors } = refused(
      await rosa.command("start-check", { workstationId: UNKNOWN, kind: "daily" }),
      404,
      "not-found",
    );
    expect(errors).toEqual([{ field: "workstationId", message: expect.stringMatching(/no workstation with this id/) }]);
    expect((await rosa.get("/api/v1/nothing")).status).toBe(404);
  });

  it("409: done already, moved on, taken, or a key used for something else", async () => {
    const checkId = await opened(rosa);
    const check = JSON.parse((await rosa.get(`/api/v1/checks/${checkId}`)).body) as {
      items: { item: string; subject: unknown }[];
      version: number;
    };
    const bag = check.items.find(({ item }) => item === "self-inflating-bag");
    const answers = [{ item: bag?.item, subject: bag?.subject, answer: { kind: "pass", passed: true } }];
    expect((await rosa.command("record-answers", { checkId, answers }, "key-of-the-answers")).status).toBe(200);
    refused(
      await rosa.command(
        "record-answers",
        { checkId, answers: [{ ...answers[0], answer: { kind: "pass", passed: false } }] },
        "key-of-the-answers",
      ),
      409,
      "key-reused",
    );
    const { errors } = refused(
      await rosa.command("sign-check", { checkId, seenVersion: check.version }),
      409,
      "moved-on",
    );
    expect(errors?.[0]).toMatchObject({ field: "seenVersion" });
    expect((await rosa.command("sign-check", { checkId, seenVersion: check.version + 1 })).status).toBe(200);
    expect(
      refused(await karl.command("sign-check", { checkId, seenVersion: check.version + 2 }), 409, "already-done")
        .detail,
    ).toContain("Rosa Osei");
    const { tasks } = JSON.parse((await rosa.get("/api/v1/tasks")).body) as { tasks: { key: string }[] };
    expect((await rosa.command("claim-task", { key: tasks[0]?.key })).status).toBe(200);
    expect(refused(await karl.command("claim-task", { key: tasks[0]?.key }), 409, "taken").detail).toContain(
      "Rosa Osei",
    );
    refused(await karl.command("end-case", { roomId }), 409, "moved-on");
  });

  it("422: names the field, its value and what would be right, for each field that is wrong", async () => {
    const { detail, errors } = refused(
      await rosa.command("hold-workstation", { workstationId: "AW-01", reason: "", extra: 1 }),
      422,
      "invalid",
    );
    expect(errors).toEqual([
      { field: "workstationId", value: "AW-01", message: "must be an id (UUID)" },
      { field: "reason", value: "", message: "must not be empty" },
      { field: "(whole)", value: expect.any(String), message: expect.stringMatching(/extra/) },
    ]);
    expect(detail).toBe("workstationId: must be an id (UUID)");
    const long = refused(await rosa.command("hold-workstation", hold("x".repeat(301))), 422, "invalid");
    expect(long.errors?.[0]?.message).toBe("must be at most 300 characters");
    expect(String(long.errors?.[0]?.value).length).toBeLessThan(210);
    for (const body of ["null", "[]", '"text"', "12"])
      refused(await rosa.post("/api/v1/commands/hold-workstation", body), 422, "invalid");
  });

  it("422: an impossible reading, as the command says it", async () => {
    const checkId = await opened(rosa);
    const { items } = JSON.parse((await rosa.get(`/api/v1/checks/${checkId}`)).body) as {
      items: { item: string; subject: unknown }[];
    };
    const gauge = items.find(({ item }) => item === "cylinder-gauge");
    const answer = { kind: "gauge", reading: { value: 20_000, unit: "psi" }, openWhenRead: true, shutAgain: true };
    const { errors } = refused(
      await rosa.command("record-answers", {
        checkId,
        answers: [{ item: gauge?.item, subject: gauge?.subject, answer }],
      }),
      422,
      "invalid",
    );
    expect(errors).toEqual([
      {
        field: "answers.0.answer.reading.value",
        message: expect.stringMatching(/20,000 psi cannot be; the highest possible/),
      },
    ]);
  });

  it("422: a query that makes no sense", async () => {
    const queries = [
      ["history?limit=0", "limit"],
      ["history?limit=many", "limit"],
      ["history?before=-1", "before"],
      ["history?room=OR%201", "room"],
      ["reports/check-completion?from=2099-02-03", "to"],
      ["reports/check-completion?from=2099-02-04&to=2099-02-03", "to"],
      ["reports/check-completion?from=2099-02-30&to=2099-03-01", "from"],
      ["reports/check-completion?from=1900-01-01&to=2099-02-03", "to"],
      ["reports/check-completion.csv?from=1900-01-01&to=2099-02-03", "to"],
    ] as const;
    for (const [query, field] of queries)
      expect(refused(await rosa.get(`/api/v1/${query}`), 422, "invalid").errors?.map((one) => one.field)).toContain(
        field,
      );
  });
});
