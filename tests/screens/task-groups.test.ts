import { describe, expect, it } from "vitest";
import { inOneSentence, shownTasks, suitesOf, taskAddress, taskFilterOf } from "@/app/tasks/task-filter";
import { groupTasks } from "@/app/tasks/task-groups";
import type { TaskView } from "@/lib/schemas/task";

const ROSA = { personId: "rosa", roles: ["technician"] } as const;
const AT = "2026-11-24T11:30:00Z";

function task(name: string, walkingOrder: number, change: Partial<TaskView> = {}): TaskView {
  return {
    key: `check:${name}`,
    kind: "check",
    title: "Daily machine check",
    why: "Not checked yet",
    severity: "owed",
    minutes: 15,
    mayDo: ["technician", "provider"],
    room: { id: name, name, suite: name.startsWith("OR") ? "Main" : "Heart" },
    workstation: { id: `w-${name}`, tag: `WS ${name}` },
    subject: null,
    firstCase: null,
    readyBy: null,
    rule: null,
    openedAt: AT,
    placed: "Needed before the room can start",
    ifItWaits: null,
    plannedFor: null,
    escalation: null,
    claim: null,
    openCheckId: null,
    work: null,
    couldNot: [],
    onDuty: [],
    walkingOrder,
    ...change,
  };
}

const claimed = (personId: string): Partial<TaskView> => ({ claim: { personId, name: personId, since: AT } });

/** In the plan's order, which is not the walk's. */
const TASKS = [
  task("HV 1", 2001),
  task("OR 10", 1010),
  task("OR 2", 1002, { kind: "swap-cylinder", severity: "stops", key: "swap" }),
  task("OR 3", 1003, claimed("mika")),
  task("OR 4", 1004, claimed("rosa")),
  task("OR 5", 1005, { openCheckId: "c-5" }),
  task("OR 6", 1006, { mayDo: ["biomedical-engineer"], kind: "clear", severity: "due" }),
];
const titles = (order: "plan" | "walk") =>
  groupTasks(TASKS, ROSA, order).map(({ title, tasks }) => [title, tasks.map(({ room }) => room?.name)]);

describe("the list of work", () => {
  it("has what somebody has begun on top, and the plan's order as it came", () => {
    expect(titles("plan")).toEqual([
      ["You are on it", ["OR 4", "OR 5"]],
      ["Next, in this order", ["HV 1", "OR 10", "OR 2"]],
      ["Others are on it", ["OR 3"]],
      ["For others to do", ["OR 6"]],
    ]);
  });

  it("shows somebody's own part of the plan first, when there is one", () => {
    const planned = TASKS.map((one) =>
      one.room?.name === "OR 10"
        ? { ...one, plannedFor: { personId: "rosa", name: "Rosa", at: AT, lateMinutes: 0 } }
        : one,
    );
    expect(
      groupTasks(planned, ROSA, "plan").map(({ title, tasks }) => [title, tasks.map(({ room }) => room?.name)]),
    ).toEqual([
      ["You are on it", ["OR 4", "OR 5"]],
      ["Next for you, in this order", ["OR 10"]],
      ["Open, and not planned for you", ["HV 1", "OR 2"]],
      ["Others are on it", ["OR 3"]],
      ["For others to do", ["OR 6"]],
    ]);
  });

  it("goes suite by suite along the walk when asked to", () => {
    expect(titles("walk").slice(1, 3)).toEqual([
      ["Main", ["OR 2", "OR 10"]],
      ["Heart", ["HV 1"]],
    ]);
    expect(suitesOf(TASKS)).toEqual(["Main", "Heart"]);
  });

  it("is filtered by what stands in the address, and leaves others' work out at first", () => {
    const usual = taskFilterOf(new URLSearchParams());
    expect(shownTasks(TASKS, usual, ROSA).map(({ room }) => room?.name)).not.toContain("OR 6");
    const mine = taskFilterOf(new URLSearchParams("whose=mine&suite=Main&order=walk"));
    expect(shownTasks(TASKS, mine, ROSA).map(({ room }) => room?.name)).toEqual(["OR 4", "OR 5"]);
    expect(taskAddress(mine)).toBe("/tasks?order=walk&whose=mine&suite=Main");
    expect(taskAddress(taskFilterOf(new URLSearchParams("whose=nobody")))).toBe("/tasks");
  });

  it("is said in one sentence, rooms and spares apart", () => {
    expect(inOneSentence(TASKS, ROSA)).toBe(
      "1 task that stops a room, 5 rooms to check and 1 other task. You are on 2.",
    );
    expect(inOneSentence([task("WS 9", 9, { room: null })], ROSA)).toBe("1 spare to check.");
    expect(inOneSentence([], ROSA)).toBe("Nothing is waiting.");
  });
});
