import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView } from "@/lib/schemas/check";
import { gaugeDecimals, readReading, type Scale } from "./reading";

export type AnswerForm = CheckItemView["form"];

/** What stands in an item's fields before it is an answer: half a number, one of two toggles. It is kept so that nothing typed is lost. */
export type Typed =
  | { readonly kind: "pass"; readonly passed: boolean | null; readonly note: string }
  | { readonly kind: "number"; readonly text: string; readonly note: string }
  | {
      readonly kind: "gauge";
      readonly text: string;
      readonly open: boolean | null;
      readonly shut: boolean | null;
      readonly note: string;
    }
  | { readonly kind: "choice"; readonly choice: string | null; readonly note: string }
  | { readonly kind: "timed"; readonly text: string; readonly held: boolean | null; readonly note: string };

export type TypedField = "passed" | "reading" | "open" | "shut" | "choice" | "seconds" | "held";
export type ReadTyped =
  | { readonly ok: true; readonly answer: Answer }
  | { readonly ok: false; readonly field: TypedField; readonly message: string };

const words = (kept: unknown): string => (typeof kept === "string" ? kept : "");
const toggle = (kept: unknown): boolean | null => (typeof kept === "boolean" ? kept : null);
const isRecord = (kept: unknown): kept is Record<string, unknown> => typeof kept === "object" && kept !== null;

/** A kept draft, read back without trusting it: what does not belong to this form counts as not typed. */
export function typedFrom(kept: unknown, form: AnswerForm): Typed {
  const draft = isRecord(kept) && kept.kind === form.kind ? kept : {};
  const note = words(draft.note);
  switch (form.kind) {
    case "pass":
      return { kind: "pass", passed: toggle(draft.passed), note };
    case "number":
      return { kind: "number", text: words(draft.text), note };
    case "gauge":
      return { kind: "gauge", text: words(draft.text), open: toggle(draft.open), shut: toggle(draft.shut), note };
    case "choice":
      return { kind: "choice", choice: typeof draft.choice === "string" ? draft.choice : null, note };
    case "timed":
      return { kind: "timed", text: words(draft.text), held: toggle(draft.held), note };
  }
}

/** Empty fields. Nothing is preset: a toggle that nobody touched is not an observation. */
export const untouched = (form: AnswerForm): Typed => typedFrom(null, form);

export function isUntouched(typed: Typed): boolean {
  if (typed.note !== "") return false;
  switch (typed.kind) {
    case "pass":
      return typed.passed === null;
    case "number":
      return typed.text === "";
    case "gauge":
      return typed.text === "" && typed.open === null && typed.shut === null;
    case "choice":
      return typed.choice === null;
    case "timed":
      return typed.text === "" && typed.held === null;
  }
}

/** The fields as a recorded answer would have filled them, for correcting it. */
export function typedOf(answer: Answer): Typed {
  const note = answer.note ?? "";
  switch (answer.kind) {
    case "pass":
      return { kind: "pass", passed: answer.passed, note };
    case "number":
      return { kind: "number", text: String(answer.reading.value), note };
    case "gauge":
      return {
        kind: "gauge",
        text: String(answer.reading.value),
        open: answer.openWhenRead,
        shut: answer.shutAgain,
        note,
      };
    case "choice":
      return { kind: "choice", choice: answer.choice, note };
    case "timed":
      return { kind: "timed", text: String(answer.seconds), held: answer.held, note };
  }
}

const noteOf = (typed: Typed) => (typed.note.trim() === "" ? {} : { note: typed.note.trim() });
const missing = (field: TypedField, message: string): ReadTyped => ({ ok: false, field, message });

/** The answer these fields say, or which field is missing or wrong. */
export function readTyped(form: AnswerForm, typed: Typed): ReadTyped {
  if (form.kind === "pass" && typed.kind === "pass") {
    if (typed.passed === null) return missing("passed", `Choose “${form.yes}” or “${form.no}”.`);
    return { ok: true, answer: { kind: "pass", passed: typed.passed, ...noteOf(typed) } };
  }
  if (form.kind === "choice" && typed.kind === "choice") {
    if (typed.choice === null) return missing("choice", "Choose what you see.");
    return { ok: true, answer: { kind: "choice", choice: typed.choice, ...noteOf(typed) } };
  }
  if (form.kind === "timed" && typed.kind === "timed") return readTimed(typed);
  if (form.kind === "number" && typed.kind === "number") {
    const reading = readReading(typed.text, form);
    if (!reading.ok) return missing("reading", reading.message);
    return {
      ok: true,
      answer: { kind: "number", reading: { value: reading.value, unit: form.unit }, ...noteOf(typed) },
    };
  }
  if (form.kind === "gauge" && typed.kind === "gauge") return readGauge(form, typed);
  return readTyped(form, untouched(form));
}

export const gaugeScale = (form: Extract<AnswerForm, { kind: "gauge" }>): Scale => ({
  unit: form.unit,
  least: 0,
  most: form.most,
  decimals: gaugeDecimals(form.unit),
});

export const SECONDS: Scale = { unit: "s", least: 0, most: 3600, decimals: 1 };

function readGauge(form: Extract<AnswerForm, { kind: "gauge" }>, typed: Extract<Typed, { kind: "gauge" }>): ReadTyped {
  const reading = readReading(typed.text, gaugeScale(form));
  if (!reading.ok) return missing("reading", reading.message);
  if (typed.open === null) return missing("open", "Say whether the valve was open when you read the gauge.");
  if (typed.shut === null) return missing("shut", "Say whether the valve is shut again.");
  const answer: Answer = {
    kind: "gauge",
    reading: { value: reading.value, unit: form.unit },
    openWhenRead: typed.open,
    shutAgain: typed.shut,
    ...noteOf(typed),
  };
  return { ok: true, answer };
}

function readTimed(typed: Extract<Typed, { kind: "timed" }>): ReadTyped {
  const seconds = readReading(typed.text, SECONDS);
  if (!seconds.ok) return missing("seconds", seconds.message);
  if (typed.held === null) return missing("held", "Say whether it held.");
  return { ok: true, answer: { kind: "timed", seconds: seconds.value, held: typed.held, ...noteOf(typed) } };
}
