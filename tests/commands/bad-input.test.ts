import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { expectRefused, refusedBySchema } from "@/tests/support/refusals";
import { answerRest, beginCheck, checkSeen, checkWhole, given, question, roomNamed } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;
let check: CheckView;

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
  check = await beginCheck(department, "OR 2", technician);
});
afterAll(() => department.close());

const gaugeOf = (value: unknown, unit: unknown = "psi") =>
  ({ kind: "gauge", reading: { value, unit }, openWhenRead: true, shutAgain: true }) as never;
const record = (item: CheckItemView, answer: never) => ({ checkId: check.id, answers: [given(item, answer)] });
const refused = (item: CheckItemView, answer: never, message: RegExp, field: string) =>
  expectRefused(department, recordAnswers, record(item, answer), technician, {
    refusal: "invalid",
    message,
    field: `answers.0.answer.${field}`,
  });

describe("an impossible reading names the field, the value and what would be right", () => {
  it.each([
    { value: 20_000, message: /20,000 psi cannot be; the highest possible here is [\d,]+ psi/ },
    { value: -1, message: /[-−]1 psi cannot be; a reading is 0 psi or more/ },
  ])("a gauge of $value psi", async ({ value, message }) => {
    await refused(question(check, "cylinder-gauge"), gaugeOf(value), message, "reading.value");
  });

  it("a gauge in bar where it is read in psi, and a number in another unit", async () => {
    await refused(
      question(check, "cylinder-gauge"),
      gaugeOf(131, "bar"),
      /131 bar is in bar; here it is read in psi/,
      "reading.unit",
    );
    const suction = { kind: "number", reading: { value: 50, unit: "kPa" } } as never;
    await refused(question(check, "suction"), suction, /50 kPa is in kPa; here it is read in mmHg/, "reading.unit");
  });

  it("an answer of another kind", async () => {
    const yes = { kind: "pass", passed: true } as never;
    await refused(question(check, "cylinder-gauge"), yes, /asks for a gauge reading .*, not for yes or no/, "kind");
    await refused(
      question(check, "self-inflating-bag"),
      gaugeOf(1_900),
      /asks for yes or no, not for a gauge reading/,
      "kind",
    );
  });

  it("a choice that is none", async () => {
    const purple = { kind: "choice", choice: "purple" } as never;
    await refused(question(check, "absorbent-colour"), purple, /“purple” is not one of /, "choice");
  });

  it.each([
    { value: "1900", said: /^answers\.0\.answer\.reading\.value: .*expected number/ },
    { value: "1,9", said: /^answers\.0\.answer\.reading\.value: .*expected number/ },
    { value: null, said: /^answers\.0\.answer\.reading\.value: .*expected number/ },
    { value: Number.NaN, said: /^answers\.0\.answer\.reading\.value: .*expected number/ },
    { value: Number.POSITIVE_INFINITY, said: /^answers\.0\.answer\.reading\.value: .*expected number/ },
  ])("$value where a number belongs is refused before it is a command", ({ value, said }) => {
    expect(refusedBySchema(recordAnswers, record(question(check, "cylinder-gauge"), gaugeOf(value)))).toMatch(said);
  });

  it("a unit, an item or a field that does not exist", () => {
    const gauge = question(check, "cylinder-gauge");
    expect(refusedBySchema(recordAnswers, record(gauge, gaugeOf(1_900, "stone")))).toMatch(
      /^answers\.0\.answer\.reading\.unit: /,
    );
    expect(refusedBySchema(recordAnswers, record({ ...gauge, item: "horn" as never }, gaugeOf(1_900)))).toMatch(
      /^answers\.0\.item: /,
    );
    expect(refusedBySchema(recordAnswers, { ...record(gauge, gaugeOf(1_900)), force: true })).toMatch(/force/);
    expect(refusedBySchema(recordAnswers, { checkId: check.id, answers: [] })).toBe(
      "answers: must hold at least one answer",
    );
  });

  it("text that no record should hold: control characters and halves of characters", () => {
    const noted = (note: string) =>
      record(question(check, "self-inflating-bag"), { kind: "pass", passed: true, note } as never);
    expect(refusedBySchema(recordAnswers, noted("bell \u0007"))).toMatch(
      /^answers\.0\.answer\.note: must not hold control characters/,
    );
    expect(refusedBySchema(recordAnswers, noted("zero \u0000"))).toMatch(/control characters/);
    expect(refusedBySchema(recordAnswers, noted("half \ud83d"))).toMatch(/^answers\.0\.answer\.note: /);
    expect(refusedBySchema(recordAnswers, noted("whole \u{1F525}"))).toBe("accepted");
  });
});

describe("an answer to what was not asked", () => {
  it("an item of the procedure's list that is not asked here, or about another subject", async () => {
    const gauge = question(check, "cylinder-gauge");
    const elsewhere = { ...gauge, subject: { kind: "cylinder", id: crypto.randomUUID() } } as CheckItemView;
    const notAsked = {
      refusal: "invalid",
      message: /is not asked here: the equipment may have changed/,
      field: "answers.0.item",
    } as const;
    await expectRefused(department, recordAnswers, record(elsewhere, gaugeOf(1_900)), technician, notAsked);
    const water = { ...question(check, "self-inflating-bag"), item: "water-trap" } as CheckItemView;
    await expectRefused(
      department,
      recordAnswers,
      record(water, { kind: "pass", passed: true } as never),
      technician,
      notAsked,
    );
  });

  it("one impossible answer among good ones: none is recorded, and the refusal says which", async () => {
    const bag = given(question(check, "self-inflating-bag"), { kind: "pass", passed: true });
    const bad = given(question(check, "cylinder-gauge"), gaugeOf(20_000));
    const input = { checkId: check.id, answers: [bag, bad] };
    await expectRefused(department, recordAnswers, input, technician, {
      refusal: "invalid",
      message: /20,000/,
      field: "answers.1.answer.reading.value",
    });
  });

  it("a check that is not there", async () => {
    const input = {
      ...record(question(check, "self-inflating-bag"), { kind: "pass", passed: true } as never),
      checkId: crypto.randomUUID(),
    };
    const missing = { refusal: "not-found", message: /no such check in your facility/, field: "checkId" } as const;
    await expectRefused(department, recordAnswers, input, technician, missing);
    await expectRefused(department, signCheck, { checkId: input.checkId, seenVersion: 1 }, technician, missing);
    await expectRefused(department, confirmCheck, { checkId: input.checkId, seenVersion: 1 }, provider, missing);
    const start = { workstationId: crypto.randomUUID(), kind: "daily" } as const;
    await expectRefused(department, startCheck, start, technician, {
      refusal: "not-found",
      message: /no workstation with this id/,
      field: "workstationId",
    });
  });
});

describe("signatures in the wrong order", () => {
  it("a check with nothing in it is not signed, nor is one that moved on since it was seen", async () => {
    const empty = await beginCheck(department, "OR 3", technician);
    await expectRefused(department, signCheck, { checkId: empty.id, seenVersion: 0 }, technician, {
      refusal: "invalid",
      message: /Nothing has been answered yet/,
    });
    const { version } = await answerRest(department, empty.id, technician);
    await expectRefused(department, signCheck, { checkId: empty.id, seenVersion: version - 1 }, technician, {
      refusal: "moved-on",
      message: /Answers were added since/,
      field: "seenVersion",
    });
  });

  it("a check that nobody signed is not confirmed", async () => {
    const { id, version } = await beginCheck(department, "OR 3", technician);
    await expectRefused(department, confirmCheck, { checkId: id, seenVersion: version }, provider, {
      refusal: "invalid",
      message: /has not been signed by who performed it/,
    });
  });

  it("a signed check takes no answers, no second signature and no confirmation of what was not seen", async () => {
    const begun = await beginCheck(department, "OR 3", technician);
    await department.must(signCheck, { checkId: begun.id, seenVersion: begun.version }, technician);
    const done = await checkSeen(department, begun.id, technician);
    const answers = [given(question(done, "self-inflating-bag"), { kind: "pass", passed: false })];
    await expectRefused(department, recordAnswers, { checkId: done.id, answers }, provider, {
      refusal: "already-done",
      message: /signed by Rosa Osei; start a new check/,
    });
    await expectRefused(department, signCheck, { checkId: done.id, seenVersion: done.version }, provider, {
      refusal: "already-done",
      message: /finished and signed by Rosa Osei/,
    });
    await expectRefused(department, confirmCheck, { checkId: done.id, seenVersion: begun.version }, provider, {
      refusal: "moved-on",
      message: /has changed since you opened it/,
      field: "seenVersion",
    });
    await department.must(confirmCheck, { checkId: done.id, seenVersion: done.version }, provider);
    await expectRefused(department, confirmCheck, { checkId: done.id, seenVersion: done.version + 1 }, provider, {
      refusal: "already-done",
      message: /Karl Brandt confirmed this check already/,
    });
  });

  it("a room that may not start is not confirmed, and the refusal says why", async () => {
    const done = await checkWhole(department, "OR 1", technician, (item) =>
      item.item === "suction" ? { kind: "number", reading: { value: 20, unit: "mmHg" } } : goodAnswer(item),
    );
    expect((await roomNamed(department, "OR 1")).state).toBe("do-not-use");
    await expectRefused(department, confirmCheck, { checkId: done.id, seenVersion: done.version }, provider, {
      refusal: "not-allowed",
      message: /may not start: .*20 mmHg.*once that is cleared/s,
    });
  });

  it("yesterday's check is not confirmed today", async () => {
    const done = await checkWhole(department, "OR 2", technician);
    department.clock.set("2026-11-25T11:30:00Z");
    await expectRefused(department, confirmCheck, { checkId: done.id, seenVersion: done.version }, provider, {
      refusal: "moved-on",
      message: /earlier check day/,
    });
  });
});
