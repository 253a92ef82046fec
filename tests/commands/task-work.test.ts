import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { claimTask } from "@/lib/commands/claim-task";
import { claimTasks } from "@/lib/commands/claim-tasks";
import { importDuty, setDuty } from "@/lib/commands/duty";
import { finishTask } from "@/lib/commands/finish-task";
import { cannotDoTask, handOverTask, pauseTask, startTask, takeOverTask } from "@/lib/commands/task-work";
import type { Answer } from "@/lib/domain/answer";
import { readDuty } from "@/lib/queries/duty";
import { readHistory } from "@/lib/queries/history";
import { readPickList } from "@/lib/queries/pick-list";
import { readTasks } from "@/lib/queries/tasks";
import type { CheckItemView } from "@/lib/schemas/check";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { expectRefused } from "@/tests/support/refusals";
import { checkWhole, readingOf } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let rosa: Actor;
let omar: Actor;
let lea: Actor;
let charge: Actor;
let supplies: Actor;

// 05:30 in Chicago, the roster's clocks.
beforeAll(async () => {
  department = await widerDepartment();
  rosa = await department.person("Rosa Osei", ["technician"]);
  omar = await department.person("Omar Quist", ["technician"]);
  lea = await department.person("Lea Marr", ["technician"]);
  charge = await department.person("Nia Hale", ["charge-provider"]);
  supplies = await department.person("Sam Ward", ["supplies"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const unknown = "00000000-0000-4000-8000-000000000000";
const list = () => readTasks(rosa, readingOf(department));
const taskIn = async (room: string) => {
  const task = (await list()).tasks.find((one) => one.room?.name === room && one.kind === "check");
  if (!task) throw new Error(`no check task in ${room}`);
  return task;
};

describe("a task is begun, paused and gone on with", () => {
  it("says so to everybody, with the reason of the pause", async () => {
    const { key } = await taskIn("OR 1");
    expect((await taskIn("OR 1")).work).toBeNull();
    await department.must(startTask, { key }, rosa);
    expect(await taskIn("OR 1")).toMatchObject({
      claim: { name: "Rosa Osei" },
      work: { state: "started", reason: null },
    });
    await expectRefused(department, startTask, { key }, rosa, {
      refusal: "already-done",
      message: /begun this task already/,
    });
    await expectRefused(department, startTask, { key }, omar, { refusal: "taken", message: /Rosa Osei has this task/ });
    await expectRefused(department, pauseTask, { key, reason: "x" }, omar, {
      refusal: "not-yours",
      message: /only they can pause/,
    });
    // All within one moment: what was said last is what counts.
    await department.must(pauseTask, { key, reason: "Waiting for the vaporizer." }, rosa);
    expect((await taskIn("OR 1")).work).toMatchObject({ state: "paused", reason: "Waiting for the vaporizer." });
    await expectRefused(department, pauseTask, { key, reason: "x" }, rosa, {
      refusal: "already-done",
      message: /paused already/,
    });
    await department.must(startTask, { key }, rosa);
    expect((await taskIn("OR 1")).work).toMatchObject({ state: "started" });
    await expectFresh(department);
  });
});

describe("a task changes hands", () => {
  it("without a roster it goes to anybody who may do it, and to nobody else", async () => {
    const { key } = await taskIn("OR 1");
    expect((await list()).duty).toEqual({ onRoster: false, people: [] });
    await expectRefused(department, handOverTask, { key, toPersonId: supplies.personId }, rosa, {
      refusal: "does-not-fit",
      message: /Sam Ward may not do it. This task is for: technician/,
      field: "toPersonId",
    });
    await expectRefused(department, handOverTask, { key, toPersonId: unknown }, rosa, {
      refusal: "not-found",
      message: /nobody with this id/,
      field: "toPersonId",
    });
    await expectRefused(department, handOverTask, { key, toPersonId: rosa.personId }, rosa, {
      refusal: "invalid",
      message: /Choose somebody else/,
      field: "toPersonId",
    });
    await expectRefused(department, handOverTask, { key, toPersonId: lea.personId }, omar, {
      refusal: "not-yours",
      message: /Rosa Osei has this task/,
    });
    expect(
      await department.must(handOverTask, { key, toPersonId: omar.personId, note: "Yoke 2 drips." }, rosa),
    ).toEqual({ key, to: "Omar Quist" });
    expect(await taskIn("OR 1")).toMatchObject({ claim: { name: "Omar Quist" }, work: { state: "claimed" } });
  });

  it("with a roster only to somebody on duty; nobody on duty is said", async () => {
    const duty = (personId: string, from: string, to: string) => ({
      date: "2026-11-24",
      personId,
      spans: [{ role: "technician" as const, from, to }],
    });
    await department.must(setDuty, duty(rosa.personId, "05:00", "13:00"), charge);
    await department.must(setDuty, duty(lea.personId, "13:00", "21:00"), charge);
    const { key, onDuty } = await taskIn("OR 1");
    expect(onDuty).toEqual(["Rosa Osei"]);
    expect((await list()).duty).toMatchObject({
      onRoster: true,
      people: [{ name: "Rosa Osei", roles: ["technician"], until: "2026-11-24T19:00:00.000Z" }],
    });
    await expectRefused(department, handOverTask, { key, toPersonId: lea.personId }, omar, {
      refusal: "does-not-fit",
      message: /Lea Marr is not on duty now. On duty and able to: Rosa Osei/,
      field: "toPersonId",
    });
    // What Rosa did with it before she gave it away says nothing about how far she is now.
    await department.must(handOverTask, { key, toPersonId: rosa.personId }, omar);
    expect((await taskIn("OR 1")).work).toMatchObject({ state: "claimed" });
  });

  it("is taken over from somebody who has gone, with the reason", async () => {
    const { key } = await taskIn("OR 1");
    await expectRefused(department, takeOverTask, { key, reason: "x" }, supplies, {
      refusal: "not-allowed",
      message: /may not take over task/,
    });
    expect(await department.must(takeOverTask, { key, reason: "Rosa has gone home." }, omar)).toEqual({
      key,
      from: "Rosa Osei",
    });
    await expectRefused(department, takeOverTask, { key, reason: "x" }, omar, {
      refusal: "already-done",
      message: /You have this task already/,
    });
    await expectRefused(department, takeOverTask, { key: `check:${unknown}`, reason: "x" }, omar, {
      refusal: "not-found",
      message: /no longer open/,
      field: "key",
    });
  });

  it("two take it over at once: both are told who they took it from, and it is with the later one", async () => {
    const { key } = await taskIn("OR 1");
    const outcomes = await Promise.all(
      [rosa, lea].map((actor) => department.run(takeOverTask, { key, reason: "It must go on." }, actor)),
    );
    expect(outcomes.every(({ ok }) => ok)).toBe(true);
    const froms = outcomes.map((outcome) => (outcome.ok ? outcome.value.reply.from : ""));
    const { claim } = await taskIn("OR 1");
    const last = claim?.name === "Rosa Osei" ? 0 : 1;
    expect(froms[1 - last]).toBe("Omar Quist");
    expect(froms[last]).toBe(last === 0 ? "Lea Marr" : "Rosa Osei");
  });

  it("cannot be done: the reason stays with it, it is free again, and the charge provider on duty is told", async () => {
    await department.must(
      setDuty,
      {
        date: "2026-11-24",
        personId: charge.personId,
        spans: [{ role: "charge-provider", from: "05:00", to: "15:00" }],
      },
      charge,
    );
    const task = await taskIn("OR 2");
    await department.must(claimTask, { key: task.key }, omar);
    await expectRefused(department, cannotDoTask, { key: task.key, reason: "x" }, lea, {
      refusal: "not-yours",
      message: /Omar Quist has this task/,
    });
    const reply = await department.must(cannotDoTask, { key: task.key, reason: "The room is locked." }, omar);
    expect(reply).toEqual({ key: task.key, to: null, next: ["Nia Hale", "Rosa Osei"], told: ["Nia Hale"] });
    expect(await taskIn("OR 2")).toMatchObject({
      claim: null,
      couldNot: [{ name: "Omar Quist", reason: "The room is locked." }],
    });
    const passedOn = await department.must(
      cannotDoTask,
      { key: task.key, reason: "No ladder.", toPersonId: rosa.personId },
      lea,
    );
    expect(passedOn.to).toBe("Rosa Osei");
    expect((await taskIn("OR 2")).couldNot.map(({ reason }) => reason)).toEqual(["The room is locked.", "No ladder."]);
    await expectFresh(department);
  });
});

describe("several tasks are one walk", () => {
  it("are taken together; what somebody else has is left and said", async () => {
    const [one, two, three] = await Promise.all(["OR 1", "OR 2", "OR 3"].map(taskIn));
    const keys = [one?.key ?? "", two?.key ?? "", three?.key ?? ""];
    const reply = await department.must(claimTasks, { keys }, omar);
    expect(reply.claimed).toEqual([three?.key]);
    expect(reply.left.map(({ why }) => why)).toEqual([
      expect.stringMatching(/has this task already/),
      "Rosa Osei has this task already.",
    ]);
    await expectRefused(department, claimTasks, { keys }, omar, {
      refusal: "taken",
      message: /None of these tasks could be taken/,
      field: "keys",
    });
  });

  it("have one pick list: what, how many, where in stock, what is short, and the rooms in walking order", async () => {
    const low = { kind: "gauge", reading: { value: 400, unit: "psi" }, openWhenRead: true, shutAgain: true } as const;
    for (const room of ["OR 3", "OR 2"])
      await checkWhole(department, room, rosa, (item) =>
        item.item === "cylinder-gauge" && item.subjectName.startsWith("Oxygen") ? low : goodAnswer(item),
      );
    const { tasks } = await list();
    const keys = tasks.filter(({ kind }) => kind === "swap-cylinder").map(({ key }) => key);
    expect(keys.length).toBe(2);
    const pick = await readPickList(rosa, { keys: [...keys, "check:gone"] }, readingOf(department));
    // Two in date and full in the cylinder store, one of the templates beside them; the empty and the expired one are not counted.
    const [oxygen] = pick.parts;
    expect(oxygen).toMatchObject({
      what: "Oxygen cylinder, size E",
      need: 2,
      short: 0,
      stores: [{ store: "Cylinder store", count: 3 }],
    });
    expect(pick.route.map(({ suite, rooms }) => [suite, rooms.map(({ room }) => room)])).toEqual([
      ["Main suite", ["OR 2", "OR 3"]],
    ]);
    expect(pick.gone).toEqual(["check:gone"]);
    expect(pick.minutes).toBe(12);
  });
});

describe("the duty roster", () => {
  const rosterOf = async (date: string) =>
    (await readDuty(charge, { date }, readingOf(department))).people.map(({ name, spans }) => [
      name,
      ...spans.map(({ from, to }) => `${from}-${to}`),
    ]);
  const span = (from: string, to: string) => ({ role: "technician" as const, from, to });

  it("overlapping stretches are one; a night ends on the next day; a day is replaced as a whole", async () => {
    const date = "2026-12-01";
    const personId = omar.personId;
    await department.must(
      setDuty,
      { date, personId, spans: [span("06:00", "10:00"), span("09:00", "12:00"), span("19:00", "07:00")] },
      charge,
    );
    expect(await rosterOf(date)).toEqual([["Omar Quist", "06:00-12:00", "19:00-07:00"]]);
    // What the night before says already is not said twice.
    await department.must(setDuty, { date: "2026-12-02", personId, spans: [span("06:00", "14:00")] }, charge);
    expect(await rosterOf("2026-12-02")).toEqual([["Omar Quist", "07:00-14:00"]]);
    await department.must(setDuty, { date, personId, spans: [] }, charge);
    expect(await rosterOf(date)).toEqual([]);
  });

  it("a role that the person has not, and somebody unknown, are refused", async () => {
    const spans = [{ role: "technician" as const, from: "06:00", to: "14:00" }];
    await expectRefused(department, setDuty, { date: "2026-12-01", personId: charge.personId, spans }, charge, {
      refusal: "invalid",
      message: /Nia Hale is not a technician here/,
      field: "spans.0.role",
    });
    await expectRefused(department, setDuty, { date: "2026-12-01", personId: unknown, spans }, charge, {
      refusal: "not-found",
      message: /no person/,
      field: "personId",
    });
  });

  it("comes from a file: all of it or nothing, by line and column", async () => {
    const header = "date,user id,role,from,to";
    const userId = await userIdOf(rosa);
    const csv = [header, `today+7,${userId},technician,06:00,14:00`, `today+7,${userId},technician,13:00,15:00`].join(
      "\n",
    );
    expect(await department.must(importDuty, { csv }, charge)).toEqual({ people: 1, spans: 1, merged: 1 });
    expect(await rosterOf("2026-12-01")).toEqual([["Rosa Osei", "06:00-15:00"]]);
    const wrong = [
      header,
      `2026-12-06,${userId},technician,06:00,14:00`,
      "2026-12-06,nobody.here,technician,6,14:00",
    ].join("\n");
    await expectRefused(department, importDuty, { csv: wrong }, charge, {
      refusal: "invalid",
      message: /Nothing was imported. line 3, from: /,
      field: "csv",
    });
    await expectRefused(
      department,
      importDuty,
      { csv: [header, "2026-12-06,nobody.here,technician,06:00,14:00"].join("\n") },
      charge,
      {
        refusal: "invalid",
        message: /line 2, user id: There is nobody with the user id nobody.here/,
        field: "csv",
      },
    );
    await expectRefused(department, importDuty, { csv: "date,role\n" }, charge, {
      refusal: "invalid",
      message: /The column "user id" is missing/,
      field: "csv",
    });
    expect(await rosterOf("2026-12-06")).toEqual([]);
  });
  const userIdOf = async ({ personId }: Actor) => {
    const person = await department.database.inScope(scopeOf(rosa), (tx) =>
      tx.person.findUnique({ where: { id: personId } }),
    );
    return person?.userId ?? "";
  };

  it("two people enter the same at once: nobody is on duty twice", async () => {
    const input = { date: "2026-12-09", personId: lea.personId, spans: [span("06:00", "14:00")] };
    const outcomes = await Promise.all(
      [charge, department.admin].map((actor) => department.run(setDuty, input, actor)),
    );
    expect(outcomes.some(({ ok }) => ok)).toBe(true);
    expect(await rosterOf("2026-12-09")).toEqual([["Lea Marr", "06:00-14:00"]]);
  });
});

describe("a task whose reason vanishes while somebody is at it", () => {
  const badCircuit = (item: CheckItemView): Answer =>
    item.item === "circuit" ? { kind: "pass", passed: false, note: "split" } : goodAnswer(item);
  let key = "";
  let workstationId = "";
  let circuit: CheckItemView;

  it("is closed as no longer needed, and leaves the list", async () => {
    const check = await checkWhole(department, "OR 3", omar, badCircuit);
    const found = check.items.find(({ item }) => item === "circuit");
    if (!found) throw new Error("the check asks for no circuit");
    circuit = found;
    const task = (await list()).tasks.find(({ room, kind }) => room?.name === "OR 3" && kind === "clear");
    key = task?.key ?? "";
    workstationId = task?.workstation?.id ?? "";
    await department.must(claimTask, { key }, rosa);
    department.clock.add(1);
    await checkWhole(department, "OR 3", omar);
    expect((await list()).tasks.some((one) => one.key === key)).toBe(false);
  });

  it("records what whoever had it has done, and nobody else's", async () => {
    const answers = [{ item: circuit.item, subject: circuit.subject, answer: goodAnswer(circuit) }];
    const gone = { refusal: "not-found", message: /no longer open/, field: "key" } as const;
    await expectRefused(department, finishTask, { key, workstationId, answers }, lea, gone);
    await expectRefused(department, finishTask, { key, answers }, rosa, gone);
    const reply = await department.must(finishTask, { key, workstationId, answers }, rosa);
    expect(reply).toMatchObject({ key, failing: 0, noLongerNeeded: true });
    const { entries } = await readHistory(charge, { limit: 1 }, readingOf(department));
    expect(entries[0]?.text).toMatch(/^Recorded, though no longer needed: “/);
    await expectFresh(department);
  });
});
