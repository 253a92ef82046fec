import { describe, expect, it } from "vitest";
import { untouched } from "@/app/_parts/answer/typed";
import { changesSince } from "@/app/checks/[id]/changes-since";
import {
  type CheckAction,
  type CheckState,
  fieldsOf,
  nextOpen,
  nextState,
  progressOf,
  standingOf,
  startState,
} from "@/app/checks/[id]/check-state";
import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";

const AT = "2026-11-25T12:00:00.000Z";
const item = (key: string, form: CheckItemView["form"], limits: CheckItemView["limits"] = null): CheckItemView => ({
  key,
  item: "suction",
  subject: { kind: "room", id: "r" },
  subjectName: "",
  title: `Item ${key}`,
  how: "",
  why: "",
  whenItFails: "",
  form,
  limits,
  by: "either",
});
const BAG = item("bag", { kind: "pass", yes: "Works", no: "Fails" });
const SUCTION = item(
  "suction",
  { kind: "number", unit: "mmHg", least: 0, most: 760, decimals: 0 },
  { atLeast: { value: 300, unit: "mmHg" }, atMost: null, text: "At least 300 mmHg" },
);
const KEY = item("key", { kind: "pass", yes: "There", no: "Gone" });

const view = (more: Partial<CheckView> = {}): CheckView => ({
  id: "c",
  kind: "daily",
  procedure: null,
  workstation: { id: "w", tag: "W-1", model: "M" },
  room: { id: "r", name: "A1" },
  startedAt: AT,
  startedBy: "Rosa Osei",
  items: [BAG, SUCTION, KEY],
  recorded: [],
  draft: {},
  signatures: [],
  version: 0,
  at: AT,
  ...more,
});

const WORKS: Answer = { kind: "pass", passed: true };
const reading = (value: number): Answer => ({ kind: "number", reading: { value, unit: "mmHg" } });
const given = (key: string, answer: Answer, batchId: string): CheckAction => ({ type: "given", key, answer, batchId });
const recorded = (batchId: string, verdicts: Record<string, "pass" | "fail">, version: number): CheckAction => ({
  type: "recorded",
  batchId,
  verdicts,
  version,
  at: AT,
  by: "Rosa Osei",
});
const run = (state: CheckState, ...actions: CheckAction[]) => actions.reduce(nextState, state);

describe("answers on their way", () => {
  it("wait each under a key of its own, so that a repeated request never changes its content", () => {
    const state = run(
      startState(view()),
      given("bag", WORKS, "1"),
      given("suction", reading(500), "2"),
      given("key", WORKS, "3"),
    );
    expect(state.queue.map(({ id, answers }) => [id, answers.map(({ key }) => key)])).toEqual([
      ["1", ["bag"]],
      ["2", ["suction"]],
      ["3", ["key"]],
    ]);
  });

  it("count as answered at once, and once recorded leave the queue with their verdict", () => {
    const sent = run(startState(view()), given("suction", reading(500), "1"));
    expect(standingOf(sent, SUCTION).state).toBe("waiting");
    expect(progressOf(sent)).toEqual({ answered: 1, total: 3, waiting: 1 });
    const done = run(sent, recorded("1", { suction: "pass" }, 1));
    expect(standingOf(done, SUCTION).state).toBe("passing");
    expect(progressOf(done)).toEqual({ answered: 1, total: 3, waiting: 0 });
    expect(done.view.version).toBe(1);
  });

  it("show a plain failure before the server has said so, and the server's verdict after it", () => {
    const sent = run(startState(view()), given("suction", reading(299), "1"));
    expect(standingOf(sent, SUCTION).state).toBe("failing");
    expect(standingOf(run(sent, recorded("1", { suction: "fail" }, 1)), SUCTION).state).toBe("failing");
  });

  it("come back into their fields when the server refuses them, with its reason", () => {
    const state = run(startState(view()), given("suction", reading(500), "1"), {
      type: "refused",
      batchId: "1",
      message: "Signed already.",
    });
    expect(state.queue).toEqual([]);
    expect(fieldsOf(state, SUCTION)).toMatchObject({ text: "500" });
    expect(state.errors.suction).toEqual({ field: null, message: "Signed already." });
  });

  it("survive a reload under the same key, before what is given afterwards", () => {
    const kept = run(startState(view()), given("bag", WORKS, "1"));
    const restored = run(
      startState(view()),
      { type: "restored", kept: { typed: kept.typed, queue: kept.queue } },
      given("key", WORKS, "2"),
    );
    expect(restored.queue.map(({ id }) => id)).toEqual(["1", "2"]);
  });

  it("are not undone by a reading of the check that is older than they are", () => {
    const done = run(startState(view()), given("bag", WORKS, "1"), recorded("1", { bag: "pass" }, 1), {
      type: "refreshed",
      view: view(),
    });
    expect(standingOf(done, BAG).state).toBe("passing");
  });
});

describe("the way through a check", () => {
  it("leads to the next item without an answer, round the end, and to none when all are answered", () => {
    const state = run(startState(view()), given("suction", reading(500), "1"));
    expect(nextOpen(state, "bag")?.key).toBe("key");
    expect(nextOpen(state, "key")?.key).toBe("bag");
    const all = run(state, given("bag", WORKS, "2"), given("key", WORKS, "3"));
    expect(nextOpen(all, "key")).toBeNull();
  });

  it("starts from the drafts the server kept", () => {
    const state = startState(view({ draft: { suction: { kind: "number", text: "41", note: "" }, bag: "nonsense" } }));
    expect(fieldsOf(state, SUCTION)).toMatchObject({ text: "41" });
    expect(standingOf(state, SUCTION).state).toBe("typed");
    expect(fieldsOf(state, BAG)).toEqual(untouched(BAG.form));
  });
});

describe("a check that moved on", () => {
  const answer = (key: string, value: Answer, by: string): CheckView["recorded"][number] => ({
    observationId: "o",
    key,
    item: "suction",
    subject: { kind: "room", id: "r" },
    answer: value,
    verdict: "pass",
    by,
    at: AT,
    previous: null,
    worth: null,
    since: null,
  });

  it("says what is new, what is different, and who signed", () => {
    const seen = view({ recorded: [answer("suction", reading(500), "Rosa Osei"), answer("bag", WORKS, "Rosa Osei")] });
    const now = view({
      recorded: [
        answer("suction", reading(290), "Karin Brandt"),
        answer("bag", WORKS, "Rosa Osei"),
        answer("key", WORKS, "Karin Brandt"),
      ],
      signatures: [{ name: "Karin Brandt", role: "provider", meaning: "performed", at: AT }],
    });
    expect(changesSince(seen, now).map((line) => line.replaceAll("\u00a0", " "))).toEqual([
      "Item suction: 290 mmHg, by Karin Brandt (you saw: 500 mmHg)",
      "Item key: There, by Karin Brandt",
      "Karin Brandt signed: performed",
    ]);
  });

  it("says nothing when nothing changed", () => {
    expect(changesSince(view(), view())).toEqual([]);
  });
});
