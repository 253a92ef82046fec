import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { claimTask } from "@/lib/commands/claim-task";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { finishTask } from "@/lib/commands/finish-task";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { readBoard } from "@/lib/queries/board";
import { readCheck } from "@/lib/queries/check";
import { readCompletion } from "@/lib/queries/completion";
import { readHistory } from "@/lib/queries/history";
import { readRoom } from "@/lib/queries/room";
import { readTask } from "@/lib/queries/task";
import { readTasks } from "@/lib/queries/tasks";
import type { CheckItemView } from "@/lib/schemas/check";
import { goodAnswer, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;
const reading = () => ({ database: department.database, now: department.clock.now });

beforeAll(async () => {
  department = await smallDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
});
afterAll(() => department.close());

const roomNamed = async (name: string) => {
  const room = (await readBoard(technician, reading())).rooms.find((row) => row.name === name);
  if (!room) throw new Error(`no room ${name} on the board`);
  return room;
};

const given = ({ item, subject }: CheckItemView, answer: ReturnType<typeof goodAnswer>) => ({ item, subject, answer });

describe("a room's morning, through the commands alone", () => {
  let checkId = "";
  let workstationId = "";

  it("begins unchecked, and unchecked is not failed", async () => {
    const row = await roomNamed("OR 1");
    expect(row).toMatchObject({ state: "to-check", marks: { equipment: null, provider: null } });
    workstationId = row.workstation?.id ?? "";
    const { tasks } = await readTasks(technician, reading());
    expect(tasks.filter(({ room }) => room?.name === "OR 1").map(({ kind }) => kind)).toEqual(["check"]);
  });

  it("a reserve oxygen gauge under the limit stops the room at once, before anything is signed", async () => {
    ({ checkId } = await department.must(startCheck, { workstationId, kind: "daily" }, technician));
    const check = await readCheck(technician, checkId, reading());
    const gauge = check?.items.find(
      ({ item, subjectName }) => item === "cylinder-gauge" && subjectName.startsWith("Oxygen"),
    );
    if (!gauge) throw new Error("the procedure asks no oxygen gauge");
    department.clock.add(4);
    const low = { kind: "gauge", reading: { value: 640, unit: "psi" }, openWhenRead: true, shutAgain: true } as const;
    await department.must(recordAnswers, { checkId, answers: [given(gauge, low)] }, technician);
    const row = await roomNamed("OR 1");
    expect(row.state).toBe("do-not-use");
    expect(row.headline).toMatch(/640 psi.*1,000 psi/);
    expect(row.reserve).toMatchObject({ reading: { value: 640, unit: "psi" }, litres: 215 });
  });

  it("the rest of the check is answered and signed; the task to swap the cylinder tops the list", async () => {
    const check = await readCheck(technician, checkId, reading());
    const open = check?.items.filter(({ key }) => !check.recorded.some((answer) => answer.key === key)) ?? [];
    expect(open.length).toBeGreaterThan(15);
    department.clock.add(8);
    await department.must(
      recordAnswers,
      { checkId, answers: open.map((item) => given(item, goodAnswer(item))) },
      technician,
    );
    const seenVersion = (await readCheck(technician, checkId, reading()))?.version ?? 0;
    const failed = (await readCheck(technician, checkId, reading()))?.recorded.filter(
      ({ verdict }) => verdict === "fail",
    );
    expect(failed?.map(({ item }) => item)).toEqual(["cylinder-gauge"]);
    const signed = await department.must(signCheck, { checkId, seenVersion }, technician);
    expect(signed).toMatchObject({ failing: 1, unanswered: 0 });
    const { tasks } = await readTasks(technician, reading());
    expect(tasks[0]).toMatchObject({ kind: "swap-cylinder", room: { name: "OR 1" }, severity: "stops" });
  });

  it("a provider cannot confirm a room that may not start", async () => {
    const seenVersion = (await readCheck(provider, checkId, reading()))?.version ?? 0;
    expect(await department.run(confirmCheck, { checkId, seenVersion }, provider)).toMatchObject({
      ok: false,
      refusal: "not-allowed",
    });
  });

  it("the swap owes only its own recheck, which finishing it signs", async () => {
    const [task] = (await readTasks(technician, reading())).tasks;
    await department.must(claimTask, { key: task?.key ?? "" }, technician);
    const detail = await readTask(technician, task?.key ?? "", reading());
    const spare = detail?.swap?.spares[0];
    expect(spare).toBeDefined();
    department.clock.add(5);
    const swapped = await department.must(
      swapCylinder,
      { workstationId, position: detail?.swap?.position ?? "", cylinder: { id: spare?.id ?? "" }, takenOff: "empty" },
      technician,
    );
    expect(await roomNamed("OR 1")).toMatchObject({ state: "to-check" });
    const recheck = await readTask(technician, swapped.recheckTaskKey ?? "", reading());
    expect(recheck?.items.map(({ item }) => item).sort()).toEqual(["cylinder-gauge", "yoke-leak"]);
    await department.must(
      finishTask,
      { key: recheck?.task.key ?? "", answers: recheck?.items.map((item) => given(item, goodAnswer(item))) ?? [] },
      technician,
    );
    const row = await roomNamed("OR 1");
    expect(row).toMatchObject({ state: "ready", marks: { provider: null } });
    expect(row.headline).toMatch(/provider/i);
  });

  it("the signed check is still read with the cylinder it was about", async () => {
    const check = await readCheck(technician, checkId, reading());
    const answered = new Set(check?.recorded.map(({ key }) => key));
    expect(check?.items.filter(({ key }) => !answered.has(key))).toEqual([]);
    const gauge = check?.items.find(
      ({ item, subjectName }) => item === "cylinder-gauge" && subjectName.startsWith("Oxygen, yoke 1"),
    );
    expect(check?.recorded.find(({ key }) => key === gauge?.key)?.answer).toMatchObject({ reading: { value: 640 } });
  });

  it("the provider confirms, and the report and the history show all of it", async () => {
    const room = await readRoom(provider, (await roomNamed("OR 1")).roomId, reading());
    const { confirmable } = room ?? {};
    if (!confirmable) throw new Error("nothing to confirm");
    await department.must(confirmCheck, { checkId: confirmable.checkId, seenVersion: confirmable.version }, provider);
    expect(await roomNamed("OR 1")).toMatchObject({
      state: "ready",
      marks: { equipment: { name: "Rosa Osei" }, provider: { name: "Karl Brandt" } },
    });
    const report = await readCompletion(department.admin, { from: "2026-11-24", to: "2026-11-24" }, reading());
    const cell = report.rooms.find(({ name }) => name === "OR 1")?.cells[0];
    expect(cell).toMatchObject({
      state: "done",
      equipmentBy: "Rosa Osei",
      providerBy: "Karl Brandt",
      failures: ["Cylinder gauge"],
      swaps: ["OX-40118 on yoke 1"],
    });
    const { entries } = await readHistory(department.admin, { room: room?.row.roomId, limit: 50 }, reading());
    expect(entries.map(({ command }) => command)).toEqual([
      "confirm-check",
      "finish-task",
      "swap-cylinder",
      "claim-task",
      "sign-check",
      "record-answers",
      "record-answers",
      "start-check",
      "import-department",
    ]);
  });
});
