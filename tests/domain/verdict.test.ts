import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Answer } from "@/lib/domain/answer";
import type { ItemId, Subject } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import {
  about,
  answered,
  bad,
  chosen,
  cylinderOf,
  gauge,
  good,
  reading,
  timed,
  withValues,
} from "@/lib/domain/rules/examples";
import { answerProblem, verdictOf } from "@/lib/domain/verdict";
import { quantity } from "@/lib/units/quantity";
import { readyRoom } from "@/tests/support/ready-room";

const us = readyRoom("US");
const questions = expandProcedure(DAILY_US, us);
function question(item: ItemId, subject?: string) {
  const found = questions.find((one) => one.item === item && (subject === undefined || one.subject.id === subject));
  if (found === undefined) throw new Error(`${item} is not asked`);
  return found;
}
const verdict = (item: ItemId, answer: Answer, subject?: string, place = us) =>
  verdictOf(answer, { item, subject: question(item, subject).subject, place });

describe("the verdict an answer gets when it is given", () => {
  it.each([
    { item: "cylinder-gauge", answer: gauge(1000), is: "pass" },
    { item: "cylinder-gauge", answer: gauge(999), is: "fail" },
    { item: "cylinder-gauge", answer: gauge(1900, "psi", { open: false }), is: "noted" },
    { item: "pipeline-pressure", answer: reading(44.9, "psi"), is: "fail" },
    { item: "pipeline-pressure", answer: reading(47, "psi"), is: "pass" },
    { item: "low-pressure-leak", answer: timed(9), is: "fail" },
    { item: "low-pressure-leak", answer: timed(10), is: "pass" },
    { item: "breathing-leak", answer: reading(150, "mL/min"), is: "pass" },
    { item: "breathing-leak", answer: reading(151, "mL/min"), is: "fail" },
    { item: "absorbent-colour", answer: chosen("half"), is: "pass" },
    { item: "absorbent-colour", answer: chosen("two-thirds"), is: "fail" },
    { item: "vaporizer-fill", answer: chosen("quarter"), is: "pass" },
    { item: "vaporizer-fill", answer: chosen("empty"), is: "fail" },
    { item: "ventilator", answer: good, is: "pass" },
    { item: "ventilator", answer: bad, is: "fail" },
  ] as const)("$item $answer is $is", ({ item, answer, is }) => {
    expect(verdict(item, answer)).toBe(is);
  });

  it("has no limit of ours for a nitrous oxide gauge while liquid may remain", () => {
    expect(verdict("cylinder-gauge", gauge(745), "cylinder-n2o")).toBe("pass");
    expect(verdict("cylinder-gauge", gauge(745, "psi", { open: false }), "cylinder-n2o")).toBe("noted");
  });

  it("follows the site's limit", () => {
    const old = withValues(us, "reserve-oxygen-low", { atLeast: quantity(600, "psi") });
    expect(verdict("cylinder-gauge", gauge(600), "cylinder-o2", old)).toBe("pass");
    expect(verdict("cylinder-gauge", gauge(599), "cylinder-o2", old)).toBe("fail");
  });

  it("is the judge's own: what fails here stops or limits there, and what passes leaves the room ready", () => {
    const cases = fc.oneof(
      fc.record({
        item: fc.constant("suction" as ItemId),
        answer: fc.integer({ min: 0, max: 760 }).map((value) => reading(value, "mmHg")),
      }),
      fc.record({
        item: fc.constant("breathing-leak" as ItemId),
        answer: fc.integer({ min: 0, max: 500 }).map((value) => reading(value, "mL/min")),
      }),
      fc.record({
        item: fc.constant("low-pressure-leak" as ItemId),
        answer: fc
          .record({ seconds: fc.integer({ min: 0, max: 30 }), held: fc.boolean() })
          .map(({ seconds, held }) => timed(seconds, held)),
      }),
      fc.record({
        item: fc.constant("oxygen-in-air" as ItemId),
        answer: fc.double({ min: 0, max: 110, noNaN: true }).map((value) => reading(value, "%")),
      }),
      fc.record({
        item: fc.constant("absorbent-colour" as ItemId),
        answer: fc.constantFrom("none", "quarter", "half", "two-thirds", "all").map(chosen),
      }),
      fc.record({
        item: fc.constantFrom<ItemId>("apl", "final-state", "self-inflating-bag", "capnograph"),
        answer: fc.constantFrom(good, bad),
      }),
    );
    fc.assert(
      fc.property(cases, ({ item, answer }) => {
        const { state } = judge(answered(us, item, answer));
        expect(state).toBe(verdict(item, answer) === "fail" ? "do-not-use" : "ready");
      }),
      { numRuns: 200 },
    );
    expect(judge(answered(us, "cylinder-gauge", gauge(999), cylinderOf(us, "oxygen"))).state).toBe("do-not-use");
    expect(judge(answered(us, "pipeline-pressure", reading(44, "psi"), about("air"))).state).toBe("ready-limited");
  });
});

describe("an answer that cannot be", () => {
  it.each([
    {
      item: "cylinder-gauge",
      answer: gauge(20_000),
      field: "reading.value",
      says: "20,000 psi cannot be; the highest possible here is 2,900 psi. Look at the gauge again.",
    },
    {
      item: "cylinder-gauge",
      answer: gauge(-5),
      field: "reading.value",
      says: "−5 psi cannot be; a reading is 0 psi or more.",
    },
    {
      item: "cylinder-gauge",
      answer: gauge(130, "bar"),
      field: "reading.unit",
      says: "130 bar is in bar; here it is read in psi.",
    },
    {
      item: "cylinder-gauge",
      answer: reading(1900, "psi"),
      field: "kind",
      says: "asks for a gauge reading with its valve open or shut, not for a number.",
    },
    {
      item: "pipeline-pressure",
      answer: reading(500, "psi"),
      field: "reading.value",
      says: "500 psi cannot be; the highest possible here is 200 psi. Look at the gauge again.",
    },
    { item: "pipeline-pressure", answer: good, field: "kind", says: "asks for a number, not for yes or no." },
    {
      item: "oxygen-in-air",
      answer: reading(121, "%"),
      field: "reading.value",
      says: "121 % cannot be; the highest possible here is 110 %. Look at the gauge again.",
    },
    {
      item: "absorbent-colour",
      answer: chosen("purple"),
      field: "choice",
      says: "“purple” is not one of none, quarter, half, two-thirds, all.",
    },
    {
      item: "low-pressure-leak",
      answer: timed(-1),
      field: "seconds",
      says: "-1 s cannot be; a test lasts 0 to 3,600 s.",
    },
    {
      item: "low-pressure-leak",
      answer: timed(3601),
      field: "seconds",
      says: "3601 s cannot be; a test lasts 0 to 3,600 s.",
    },
    { item: "ventilator", answer: timed(10), field: "kind", says: "asks for yes or no, not for a timed result." },
  ] as const)("$item: $says", ({ item, answer, field, says }) => {
    expect(answerProblem(question(item), answer)).toEqual({ field, message: says });
  });

  it("is refused when it is no number at all", () => {
    const endless: Answer = { kind: "number", reading: { value: Number.NaN, unit: "psi" } };
    expect(answerProblem(question("pipeline-pressure"), endless)).toMatchObject({ field: "reading.value" });
  });

  it("is none of what the ready room was answered", () => {
    for (const one of us.observations) expect(answerProblem(question(one.item, one.subject.id), one.answer)).toBeNull();
  });

  it("is not a reading at either end of what is possible", () => {
    const subject: Subject = question("cylinder-gauge").subject;
    expect(subject.id).toBe("cylinder-o2");
    expect(answerProblem(question("cylinder-gauge"), gauge(0))).toBeNull();
    expect(answerProblem(question("cylinder-gauge"), gauge(2900))).toBeNull();
    expect(answerProblem(question("cylinder-gauge"), gauge(2901))).not.toBeNull();
  });
});
