import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Board } from "@/lib/schemas/board";
import type { CheckView } from "@/lib/schemas/check";
import type { HistoryPage } from "@/lib/schemas/history";
import type { RoomView } from "@/lib/schemas/room";
import type { TaskList } from "@/lib/schemas/task";
import { type Answer, ask } from "@/tests/support/http";
import { goodAnswer } from "@/tests/support/small-department";
import { type Person, problemOf, type ServedDepartment, servedDepartment } from "./served-department";

let served: ServedDepartment;
let rosa: Person;
let karl: Person;
let admin: Person;

beforeAll(async () => {
  served = await servedDepartment();
  rosa = await served.person("rosa.osei", ["technician"]);
  karl = await served.person("karl.brandt", ["provider"]);
  admin = await served.signedIn("abrook", "a long enough password", served.department.admin.personId);
}, 300_000);
afterAll(() => served.close());

const read = async <View>(who: Person, path: string): Promise<View> => {
  const { status, body } = await who.get(`/api/v1/${path}`);
  expect(`${status} ${body}`).toMatch(/^200 /);
  return JSON.parse(body) as View;
};
const done = async <Reply>(asked: Promise<Answer>): Promise<Reply> => {
  const { status, body } = await asked;
  expect(`${status} ${body}`).toMatch(/^200 /);
  return JSON.parse(body) as Reply;
};
const boardRow = async (name: string) => {
  const row = (await read<Board>(rosa, "board")).rooms.find((one) => one.name === name);
  if (!row) throw new Error(`no room ${name}`);
  return row;
};

describe("a morning over HTTP", () => {
  it("from an unchecked room to the manager's CSV, by requests alone", async () => {
    const { workstation, roomId, state } = await boardRow("OR 2");
    expect(state).toBe("to-check");
    const { checkId } = await done<{ checkId: string }>(
      rosa.command("start-check", { workstationId: workstation?.id, kind: "daily" }),
    );
    const check = await read<CheckView>(rosa, `checks/${checkId}`);
    const answers = check.items.map((item) => ({ item: item.item, subject: item.subject, answer: goodAnswer(item) }));
    const { version } = await done<{ version: number }>(rosa.command("record-answers", { checkId, answers }));
    await done(rosa.command("sign-check", { checkId, seenVersion: version }));
    expect(await boardRow("OR 2")).toMatchObject({
      state: "ready",
      marks: { equipment: { name: "Rosa Osei" }, provider: null },
    });
    const room = await read<RoomView>(karl, `rooms/${roomId}`);
    expect(room.confirmable).toMatchObject({ checkId, signedBy: "Rosa Osei", failing: 0 });
    await done(karl.command("confirm-check", { checkId, seenVersion: room.confirmable?.version }));
    await done(karl.command("start-case", { roomId }));
    expect(await boardRow("OR 2")).toMatchObject({
      state: "ready",
      occupancy: { state: "in-use" },
      marks: { provider: { name: "Karl Brandt" } },
    });
    const history = await read<HistoryPage>(admin, `history?room=${roomId}&limit=5`);
    expect(history.entries.map(({ command, person }) => `${command} ${person.name}`)).toEqual([
      "start-case Karl Brandt",
      "confirm-check Karl Brandt",
      "sign-check Rosa Osei",
      "record-answers Rosa Osei",
      "start-check Rosa Osei",
    ]);
    const { body, headers } = await admin.get("/api/v1/reports/check-completion.csv?from=2099-02-03&to=2099-02-03");
    expect(headers["content-type"]).toBe("text/csv; charset=utf-8");
    expect(headers["content-disposition"]).toBe('attachment; filename="check-completion-2099-02-03-to-2099-02-03.csv"');
    const line = body.split(/\r?\n/).find((one) => one.includes("OR 2"));
    expect(line).toMatch(/Rosa Osei/);
    expect(line).toMatch(/Karl Brandt/);
  });

  it("the judge finds the same in the evidence document that anybody may fetch", async () => {
    const { roomId } = await boardRow("OR 2");
    const evidence = await read<{ schema: string; room: { name: string }; observations: unknown[] }>(
      karl,
      `rooms/${roomId}/evidence`,
    );
    expect(evidence).toMatchObject({ schema: expect.stringMatching(/^yokeboard-evidence\//), room: { name: "OR 2" } });
    expect(evidence.observations.length).toBeGreaterThan(15);
  });

  it("history is read page by page, each entry once", async () => {
    const whole = await read<HistoryPage>(admin, "history?limit=200");
    const paged: number[] = [];
    let next: number | null = null;
    do {
      const page: HistoryPage = await read<HistoryPage>(
        admin,
        `history?limit=4${next === null ? "" : `&before=${next}`}`,
      );
      paged.push(...page.entries.map(({ sequence }) => sequence));
      next = page.next;
    } while (next !== null);
    expect(paged).toEqual(whole.entries.map(({ sequence }) => sequence));
    expect(paged.at(-1)).toBe(0);
    const own = await read<HistoryPage>(admin, `history?person=${karl.personId}`);
    expect(own.entries.map(({ command }) => command)).toEqual(["start-case", "confirm-check"]);
  });

  it("the same request sent twice is done once, and the second answer says so", async () => {
    const { workstation } = await boardRow("OR 3");
    const hold = () =>
      rosa.command(
        "hold-workstation",
        { workstationId: workstation?.id, reason: "A hiss at the yoke." },
        "key-of-one-hold",
      );
    const [first, second] = [await hold(), await hold()];
    expect([first.status, first.headers["idempotency-replayed"]]).toEqual([200, undefined]);
    expect([second.status, second.headers["idempotency-replayed"]]).toEqual([200, "true"]);
    expect(second.body).toBe(first.body);
    const { entries } = await read<HistoryPage>(admin, "history?limit=200");
    expect(entries.filter(({ command }) => command === "hold-workstation").length).toBe(1);
  });

  it("a draft is kept for its person alone until the check is signed", async () => {
    const { workstation } = await boardRow("OR 1");
    const { checkId } = await done<{ checkId: string }>(
      rosa.command("start-check", { workstationId: workstation?.id, kind: "daily" }),
    );
    await done(rosa.command("save-draft", { checkId, answers: { "suction:room:x": "40" } }));
    expect((await read<CheckView>(rosa, `checks/${checkId}`)).draft).toEqual({ "suction:room:x": "40" });
    expect((await read<CheckView>(karl, `checks/${checkId}`)).draft).toEqual({});
  });
});

describe("the board", () => {
  it("costs one line when nothing has changed, and is the same for everybody", async () => {
    const first = await rosa.get("/api/v1/board");
    const etag = String(first.headers.etag);
    const again = await karl.ask("/api/v1/board", { headers: { "If-None-Match": etag } });
    expect([again.status, again.body]).toEqual([304, ""]);
    const { workstation } = await boardRow("OR 1");
    await done(karl.command("hold-workstation", { workstationId: workstation?.id, reason: "Bellows." }));
    const changed = await karl.ask("/api/v1/board", { headers: { "If-None-Match": etag } });
    expect(changed.status).toBe(200);
    expect(String(changed.headers.etag)).not.toBe(etag);
    expect((JSON.parse(changed.body) as Board).rooms.find(({ name }) => name === "OR 1")).toMatchObject({
      state: "do-not-use",
    });
  });
});

describe("another facility", () => {
  it("sees no room, check, task, person's work or report line of this one, and can do nothing here", async () => {
    const { roomId, workstation } = await boardRow("OR 1");
    const { tasks } = await read<TaskList>(rosa, "tasks");
    const checkId = (
      await done<{ checkId: string }>(rosa.command("start-check", { workstationId: workstation?.id, kind: "daily" }))
    ).checkId;
    await done(admin.post("/api/v1/session", { facilityId: served.otherFacilityId }));
    try {
      expect((await read<Board>(admin, "board")).rooms).toEqual([]);
      expect((await read<TaskList>(admin, "tasks")).tasks).toEqual([]);
      expect((await read<HistoryPage>(admin, "history?limit=200")).entries.map(({ command }) => command)).toEqual([
        "add-facility",
      ]);
      expect((await read<HistoryPage>(admin, `history?room=${roomId}`)).entries).toEqual([]);
      expect(await read(admin, "reports/check-completion?from=2099-02-03&to=2099-02-03")).toMatchObject({
        rooms: [],
        due: 0,
        percent: null,
      });
      for (const path of [
        `rooms/${roomId}`,
        `rooms/${roomId}/evidence`,
        `checks/${checkId}`,
        `tasks/${tasks[0]?.key}`,
      ]) {
        const answer = await admin.get(`/api/v1/${path}`);
        expect([path, answer.status, problemOf(answer).type]).toEqual([path, 404, "urn:yokeboard:problem:not-found"]);
      }
      await done(
        admin.command("change-roles", {
          personId: admin.personId,
          roles: ["administrator", "technician", "charge-provider", "manager"],
          active: true,
        }),
      );
      const attempts = [
        ["start-check", { workstationId: workstation?.id, kind: "daily" }],
        ["sign-check", { checkId, seenVersion: 0 }],
        ["claim-task", { key: tasks[0]?.key }],
        ["hold-workstation", { workstationId: workstation?.id, reason: "From afar." }],
        ["close-room", { roomId }],
        ["save-draft", { checkId, answers: {} }],
      ] as const;
      for (const [name, input] of attempts) {
        const answer = await admin.command(name, input);
        // A signature is asked for before anything is looked up: a stranger learns nothing either way.
        expect([name, answer.status]).toEqual([name, name === "sign-check" ? 428 : 404]);
      }
    } finally {
      await done(admin.post("/api/v1/session", { facilityId: served.department.admin.facility.id }));
    }
    expect((await read<CheckView>(rosa, `checks/${checkId}`)).signatures).toEqual([]);
  });
});

describe("what needs nobody", () => {
  it("templates, the description and the health line answer without a session", async () => {
    for (const path of ["imports/templates/rooms.csv", "openapi.json", "health"])
      expect((await ask(`${served.server.url}/api/v1/${path}`)).status).toBe(200);
    expect((await ask(`${served.server.url}/api/v1/imports/templates/rooms.csv`)).body).toMatch(/^name,suite,/);
    expect((await ask(`${served.server.url}/api/v1/imports/templates/passwords.csv`)).status).toBe(404);
  });
});
