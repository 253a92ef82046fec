import type { Answer } from "@/lib/domain/answer";
import type { Assessment, FindingDraft } from "@/lib/domain/rule";
import { noted } from "@/lib/domain/rules/failing";
import { numeral, said } from "@/lib/domain/wording";
import { isAbove, type Quantity, quantity } from "@/lib/units/quantity";

/** A leak test is a time held, a leak measured, or a verdict; each model gives one of these. */
export function leakAssessment(answer: Answer, holdsFor: Quantity, atMost: Quantity): Assessment {
  switch (answer.kind) {
    case "pass":
      return answer.passed ? "pass" : "fail";
    case "timed":
      return answer.held && answer.seconds >= holdsFor.value ? "pass" : "fail";
    case "number": {
      const above = isAbove(answer.reading, atMost);
      return above === null ? "uncounted" : above ? "fail" : "pass";
    }
    default:
      return "uncounted";
  }
}

type LeakText = Pick<FindingDraft, "text" | "measured" | "limit">;

export function leakText(
  test: string,
  leaks: string,
  answer: Answer,
  holdsFor: Quantity,
  atMost: Quantity,
  at = "",
): LeakText {
  if (answer.kind === "number") {
    return {
      text: `${leaks} ${said(answer.reading)}${at} (at most ${said(atMost)})`,
      measured: answer.reading,
      limit: atMost,
    };
  }
  if (answer.kind === "timed") {
    const held = answer.seconds >= holdsFor.value ? "did not hold" : `held ${numeral(answer.seconds)} s`;
    return {
      text: `${test} ${held} (at least ${said(holdsFor)})`,
      measured: quantity(answer.seconds, "s"),
      limit: holdsFor,
    };
  }
  return { text: `${test} failed${noted(answer)}` };
}
