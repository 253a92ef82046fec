import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { sameSubject } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import { taskItems } from "@/lib/domain/procedure/decide";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import { RULES } from "@/lib/domain/rules/all";
import { answered, bad, chosen, withWorkstation } from "@/lib/domain/rules/examples";
import { tasksFor } from "@/lib/domain/task/decide";
import type { TaskDraft } from "@/lib/domain/task/model";
import { wayOfTask } from "@/lib/domain/task-way";
import type { Action } from "@/lib/domain/way-action";
import { applied } from "@/lib/domain/way-applied";
import { action, CHECKERS } from "@/lib/domain/way-makers";
import { readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom();
const clearing = (evidence: Evidence) => tasksFor(judge(evidence), evidence).filter(({ kind }) => kind === "clear");
const [absorbent] = ready.workstation?.fitted.absorbent ?? [];
const withDye = (reverts: boolean) =>
  withWorkstation(ready, ({ fitted }) => ({
    fitted: { ...fitted, absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, reverts } })) },
  }));

/** What a person does with the form that the task opens, ending well. */
function done(task: TaskDraft, evidence: Evidence): Evidence | null {
  const way = wayOfTask(task, evidence);
  const act = (kind: Action["kind"], more: Partial<Action>) => applied(action(kind, "", 1, CHECKERS, more), evidence);
  switch (way.kind) {
    case "answers": {
      const items = taskItems(task, DAILY_US, evidence).map(({ item, subject }) => ({ item, subject }));
      return act("put-right", { items });
    }
    case "look-at-fault":
      return act("look-at-fault", { about: way.faultId });
    case "lift-hold":
      return act("lift-hold", { about: way.holdId });
    case "fit-part":
      return act(way.part === "absorbent" ? "change-absorbent" : "replace-sensor", {
        subject: { kind: way.part, id: way.partId },
      });
    case "elsewhere":
      return null;
  }
}

const stillThere = (task: TaskDraft, evidence: Evidence): boolean =>
  judge(evidence).reasons.some(
    ({ rule, subject, severity }) =>
      rule === task.rule && severity !== "note" && task.subject !== null && sameSubject(subject, task.subject),
  );

const examples = RULES.flatMap((rule) =>
  rule.examples.map((example) => {
    const evidence = example.given(readyRoom(example.scheme ?? "US"));
    return { name: `${rule.id}: ${example.name}`, evidence, tasks: clearing(evidence) };
  }),
).filter(({ tasks }) => tasks.length > 0);

describe("what a task opens", () => {
  it.each(examples)("can clear it: $name", ({ evidence, tasks }) => {
    for (const task of tasks) {
      const after = done(task, evidence);
      if (after === null) continue;
      expect({ task: task.title, open: stillThere(task, after) }).toEqual({ task: task.title, open: false });
    }
  });

  it("is a form for most of them", () => {
    const ways = examples.flatMap(({ evidence, tasks }) => tasks.map((task) => wayOfTask(task, evidence).kind));
    expect(ways.filter((kind) => kind !== "elsewhere").length).toBeGreaterThan(ways.length / 2);
    expect(new Set(ways)).toEqual(new Set(["answers", "look-at-fault", "lift-hold", "fit-part", "elsewhere"]));
  });

  it.each([true, false])("is a new charge for spent absorbent, whether or not its dye comes back (%s)", (reverts) => {
    const [task] = clearing(answered(withDye(reverts), "absorbent-colour", chosen("two-thirds")));
    expect(task).toMatchObject({ title: "Fit a new charge of absorbent", rule: "absorbent-colour", severity: "stops" });
    expect(task?.why).toContain("Absorbent spent");
    const way = task && wayOfTask(task, answered(withDye(reverts), "absorbent-colour", chosen("two-thirds")));
    expect(way).toEqual({ kind: "fit-part", part: "absorbent", partId: absorbent?.id });
  });

  it("is the very fault that was reported, of two", () => {
    const fault = { wouldNotUse: false, lookedAt: false };
    const two = withWorkstation(ready, () => ({
      faults: [
        { id: "fault-1", text: "screen flickers", ...fault },
        { id: "fault-2", text: "a caster sticks", ...fault },
      ],
    }));
    const ways = new Map(clearing(two).map((task) => [task.why, wayOfTask(task, two)]));
    expect(ways).toEqual(
      new Map([
        ["Fault reported: screen flickers", { kind: "look-at-fault", faultId: "fault-1" }],
        ["Fault reported: a caster sticks", { kind: "look-at-fault", faultId: "fault-2" }],
      ]),
    );
  });

  it("is no form for what a service alone clears: it says what does", () => {
    const late = examples.find(({ name }) => name.startsWith("service-late"));
    const [task] = late?.tasks ?? [];
    expect(late && task && wayOfTask(task, late.evidence)).toMatchObject({
      kind: "elsewhere",
      texts: ["Do the service"],
    });
  });

  it("is answers for a failed item that is put right", () => {
    const failed = answered(ready, "apl", bad);
    const [task] = clearing(failed);
    expect(task && wayOfTask(task, failed)).toEqual({ kind: "answers" });
  });
});
