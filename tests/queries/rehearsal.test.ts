import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { readRehearsal, scoreRehearsal } from "@/lib/queries/rehearsal";
import { rehearsalAnswers, rehearsalQuery, rehearsalResultView, rehearsalView } from "@/lib/schemas/rehearsal";
import { contentsOf } from "@/tests/support/postgres";
import { readingOf } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

let department: SmallDepartment;
let starter: Actor;
beforeAll(async () => {
  department = await smallDepartment();
  starter = await department.person("Nils Abara", ["technician"]);
});
afterAll(() => department.close());

describe("a rehearsal at a department", () => {
  it("asks its own daily check, and neither the practice nor its result leaves anything in the database", async () => {
    const before = await contentsOf(department.appUrl, scopeOf(starter));
    const view = await readRehearsal(starter, { seed: 12, faults: 5 }, readingOf(department));
    expect(rehearsalView.safeParse(view).error).toBeUndefined();
    expect(view?.questions.length).toBeGreaterThan(20);
    const answers = (view?.questions ?? []).map((question) => ({
      key: question.key,
      answer: goodAnswer(question),
      seen: question.signs.length,
    }));
    const result = await scoreRehearsal(starter, { seed: 12, faults: 5, answers }, readingOf(department));
    expect(rehearsalResultView.safeParse(result).error).toBeUndefined();
    // Whoever answers that all is well, finds nothing.
    expect(result).toMatchObject({ found: 0, planted: 5, unanswered: [] });
    expect(result.faults.every(({ outcome }) => outcome === "missed")).toBe(true);
    expect(await contentsOf(department.appUrl, scopeOf(starter))).toEqual(before);
  });

  it.each([
    [{ seed: "-1" }, "seed", "must be 0 or more"],
    [{ seed: "1.5" }, "seed", "must be a whole number"],
    [{ seed: "3", faults: "9" }, "faults", "must be at most 8"],
    [{ seed: "3", faults: "0" }, "faults", "must be at least 1"],
  ])("refuses %j by its field", (query, field, message) => {
    const issue = rehearsalQuery.safeParse(query).error?.issues[0];
    expect([issue?.path[0], issue?.message]).toEqual([field, message]);
  });

  it("takes no answer that is not one", () => {
    const answers = [{ key: "x", answer: { kind: "pass", passed: "yes" }, seen: 0 }];
    expect(rehearsalAnswers.safeParse({ seed: 1, faults: 1, answers }).success).toBe(false);
  });
});
