import { describe, expect, it } from "vitest";
import {
  type AnswerForm,
  isUntouched,
  readTyped,
  type Typed,
  typedFrom,
  typedOf,
  untouched,
} from "@/app/_parts/answer/typed";
import type { Answer } from "@/lib/domain/answer";

const GAUGE: AnswerForm = { kind: "gauge", unit: "psi", most: 4500 };
const FORMS: Record<AnswerForm["kind"], AnswerForm> = {
  pass: { kind: "pass", yes: "Works", no: "Fails" },
  number: { kind: "number", unit: "%", least: 0, most: 100, decimals: 1 },
  gauge: GAUGE,
  choice: { kind: "choice", options: [{ value: "none", label: "None" }] },
  timed: { kind: "timed", seconds: 10, what: "the bulb stays flat" },
};
const ANSWERS: Record<AnswerForm["kind"], Answer> = {
  pass: { kind: "pass", passed: false, note: "torn" },
  number: { kind: "number", reading: { value: 20.9, unit: "%" } },
  gauge: { kind: "gauge", reading: { value: 1955, unit: "psi" }, openWhenRead: true, shutAgain: false },
  choice: { kind: "choice", choice: "none" },
  timed: { kind: "timed", seconds: 9.9, held: false },
};
const kinds = Object.keys(FORMS) as AnswerForm["kind"][];

describe("the fields of an item", () => {
  it.each(kinds)("start empty and give no answer (%s)", (kind) => {
    const fields = untouched(FORMS[kind]);
    expect(isUntouched(fields)).toBe(true);
    expect(readTyped(FORMS[kind], fields).ok).toBe(false);
  });

  it.each(kinds)("hold a recorded answer whole, and give it back unchanged (%s)", (kind) => {
    const fields = typedOf(ANSWERS[kind]);
    expect(isUntouched(fields)).toBe(false);
    expect(readTyped(FORMS[kind], fields)).toEqual({ ok: true, answer: ANSWERS[kind] });
  });

  it.each(kinds)("come back from a draft as they were (%s)", (kind) => {
    const fields = typedOf(ANSWERS[kind]);
    expect(typedFrom(JSON.parse(JSON.stringify(fields)), FORMS[kind])).toEqual(fields);
  });
});

describe("a gauge", () => {
  const gauge = (fields: Partial<Extract<Typed, { kind: "gauge" }>>) =>
    readTyped(GAUGE, { kind: "gauge", text: "1955", open: true, shut: true, note: "", ...fields });

  it("is no answer until both questions are answered: neither is preset", () => {
    expect(gauge({ open: null })).toMatchObject({ ok: false, field: "open" });
    expect(gauge({ shut: null })).toMatchObject({ ok: false, field: "shut" });
  });

  it("says the reading first when everything is missing", () => {
    expect(gauge({ text: "", open: null, shut: null })).toMatchObject({ ok: false, field: "reading" });
  });

  it("takes no as an answer", () => {
    expect(gauge({ open: false, shut: false })).toMatchObject({
      ok: true,
      answer: { openWhenRead: false, shutAgain: false },
    });
  });
});

describe("a kept draft", () => {
  it.each([null, "text", 7, [], { kind: "number", text: "5" }, { kind: "gauge", text: 5, open: "yes" }])(
    "that does not belong to the form counts as nothing typed: %j",
    (kept) => {
      expect(isUntouched(typedFrom(kept, GAUGE))).toBe(true);
    },
  );
});
