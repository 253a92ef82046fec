import { numberText, quantityText } from "@/app/_parts/format";
import type { Answer } from "@/lib/domain/answer";
import { isAbove, isBelow, type Quantity } from "@/lib/units/quantity";
import type { AnswerForm } from "./typed";

export type Limits = {
  readonly atLeast: Quantity | null;
  readonly atMost: Quantity | null;
  readonly text: string;
} | null;

/** An answer as a person reads it, in the words of the item's own form. */
export function answerWords(answer: Answer, form: AnswerForm | null): string {
  switch (answer.kind) {
    case "pass":
      if (form?.kind === "pass") return answer.passed ? form.yes : form.no;
      return answer.passed ? "Works" : "Does not work";
    case "number":
      return quantityText(answer.reading);
    case "gauge":
      return [
        quantityText(answer.reading),
        answer.openWhenRead ? "read open" : "read with the valve shut",
        answer.shutAgain ? "shut again" : "valve left open",
      ].join(", ");
    case "choice":
      return optionLabel(answer.choice, form);
    case "timed":
      return `${answer.held ? "held" : "did not hold,"} ${numberText(answer.seconds)}\u00a0s`;
  }
}

function optionLabel(choice: string, form: AnswerForm | null): string {
  if (form?.kind !== "choice") return choice;
  return form.options.find((option) => option.value === choice)?.label ?? choice;
}

export type Side = "within" | "below" | "above";

/** Where a reading stands to the limits shown beside it. The judgement is the server's; this only says it while the thumb is still there. */
export function sideOf(reading: Quantity, limits: Limits): Side | null {
  if (!limits || (!limits.atLeast && !limits.atMost)) return null;
  if (limits.atLeast && isBelow(reading, limits.atLeast)) return "below";
  if (limits.atMost && isAbove(reading, limits.atMost)) return "above";
  return "within";
}

/** "Under the limit"; null while within, or when nothing limits this item. */
export function outsideWords(reading: Quantity, limits: Limits): string | null {
  const side = sideOf(reading, limits);
  if (side === "below" && limits?.atLeast) return "Under the limit";
  if (side === "above" && limits?.atMost) return "Over the limit";
  return null;
}
