import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { finishTask } from "@/lib/commands/finish-task";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { readBoard } from "@/lib/queries/board";
import { readCheck } from "@/lib/queries/check";
import { readTask } from "@/lib/queries/task";
import { readTasks } from "@/lib/queries/tasks";
import { goodAnswer, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

let department: SmallDepartment;
let technician: Actor;
const reading = () => ({ database: department.database, now: department.clock.now });

beforeAll(async () => {
  department = await smallDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
});
afterAll(() => department.close());

const roomOne = async () => {
  const row = (await readBoard(technician, reading())).rooms.find(({ name }) => name === "OR 1");
  if (!row?.workstation) throw new Error("no workstation in OR 1");
  return { ...row, workstationId: row.workstation.id };
};

describe("a check signed with items left open", () => {
  it("leaves the room to check, and asks for those items alone; answering them makes it ready", async () => {
    const { workstationId } = await roomOne();
    const { checkId } = await department.must(startCheck, { workstationId, kind: "daily" }, technician);
    const items = (await readCheck(technician, checkId, reading()))?.items ?? [];
    const [left, done] = [items.slice(-2), items.slice(0, -2)];
    const given = done.map((item) => ({ item: item.item, subject: item.subject, answer: goodAnswer(item) }));
    await department.must(recordAnswers, { checkId, answers: given }, technician);
    department.clock.add(5);
    const signed = await department.must(signCheck, { checkId, seenVersion: done.length }, technician);
    expect(signed).toMatchObject({ failing: 0, unanswered: 2 });
    expect(await roomOne()).toMatchObject({ state: "to-check", owedCount: 2 });

    const open = (await readTasks(technician, reading())).tasks.filter(({ room }) => room?.name === "OR 1");
    expect(open.map(({ kind }) => kind)).toEqual(["recheck"]);
    const task = await readTask(technician, open[0]?.key ?? "", reading());
    expect(task?.items.map(({ key }) => key)).toEqual(left.map(({ key }) => key));
    const answers = left.map((item) => ({ item: item.item, subject: item.subject, answer: goodAnswer(item) }));
    await department.must(finishTask, { key: open[0]?.key ?? "", answers }, technician);
    expect(await roomOne()).toMatchObject({
      state: "ready",
      owedCount: 0,
      marks: { equipment: { name: "Rosa Osei" } },
    });
  });
});
