import type { Answer, AnswerKind } from "@/lib/domain/answer";
import type { Verdict } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import type { Place } from "@/lib/domain/rule";
import { assessment } from "@/lib/domain/rules/assess";
import { numeral, said } from "@/lib/domain/wording";
import { type Quantity, quantity } from "@/lib/units/quantity";

/** The verdict an answer gets when it is given, by the same predicate that judges readiness. It is kept with the answer for good. */
export function verdictOf(
  answer: Answer,
  about: { readonly item: ItemId; readonly subject: Subject; readonly place: Place },
): Verdict {
  const worth = assessment(answer, about);
  if (worth === "uncounted") return "noted";
  return worth === "fail" ? "fail" : "pass";
}

/** What makes an answer impossible, in the words of the form: the field, the value, and what would be right. */
export interface AnswerProblem {
  readonly field: string;
  readonly message: string;
}

const KIND_WORDS: Readonly<Record<AnswerKind, string>> = {
  pass: "yes or no",
  number: "a number",
  gauge: "a gauge reading with its valve open or shut",
  choice: "one of the choices",
  timed: "a timed result",
};

/** Null when the answer can be true; an impossible one is refused before it becomes evidence. */
export function answerProblem({ form }: Pick<CheckItem, "form">, answer: Answer): AnswerProblem | null {
  if (answer.kind !== form.kind) {
    return { field: "kind", message: `asks for ${KIND_WORDS[form.kind]}, not for ${KIND_WORDS[answer.kind]}.` };
  }
  if (form.kind === "number" && answer.kind === "number")
    return readingProblem(answer.reading, quantity(form.least, form.unit), form.most);
  if (form.kind === "gauge" && answer.kind === "gauge")
    return readingProblem(answer.reading, quantity(0, form.unit), form.most);
  if (form.kind === "timed" && answer.kind === "timed") return secondsProblem(answer.seconds);
  if (
    form.kind === "choice" &&
    answer.kind === "choice" &&
    !form.options.some(({ value }) => value === answer.choice)
  ) {
    return {
      field: "choice",
      message: `“${answer.choice}” is not one of ${form.options.map(({ value }) => value).join(", ")}.`,
    };
  }
  return null;
}

function readingProblem(reading: Quantity, least: Quantity, most: number): AnswerProblem | null {
  if (reading.unit !== least.unit) {
    return {
      field: "reading.unit",
      message: `${said(reading)} is in ${reading.unit}; here it is read in ${least.unit}.`,
    };
  }
  if (!Number.isFinite(reading.value))
    return { field: "reading.value", message: `a reading is a number in ${least.unit}.` };
  if (reading.value < least.value) {
    return { field: "reading.value", message: `${said(reading)} cannot be; a reading is ${said(least)} or more.` };
  }
  if (reading.value > most) {
    return {
      field: "reading.value",
      message: `${said(reading)} cannot be; the highest possible here is ${numeral(most)} ${least.unit}. Look at the gauge again.`,
    };
  }
  return null;
}

/** Longer than this no test is held; somebody let the clock run. */
const LONGEST_TEST_S = 3_600;

function secondsProblem(seconds: number): AnswerProblem | null {
  if (Number.isFinite(seconds) && seconds >= 0 && seconds <= LONGEST_TEST_S) return null;
  return { field: "seconds", message: `${seconds} s cannot be; a test lasts 0 to ${numeral(LONGEST_TEST_S)} s.` };
}
