import type { Answer } from "@/lib/domain/answer";
import type { Assessment, FindingDraft, Rule, RuleContext, RuleExample, SettingValues } from "@/lib/domain/rule";
import { about, answered, reading, unanswered } from "@/lib/domain/rules/examples";
import type { Gas } from "@/lib/domain/vocabulary";
import { GAS_NAMES, numeral, said } from "@/lib/domain/wording";
import { isAbove, isBelow, type Quantity, quantity } from "@/lib/units/quantity";

/**
 * Pipeline pressures in bands, half-open and exact: stop under stopBelow, notice from there to under noticeBelow, normal to
 * noticeAbove included, notice to stopAbove included, stop over it. The two worlds run their pipelines at different pressures
 * (400 kPa is 58 psi), so the bands differ by scheme and not only by unit.
 */
export const pipelineBands = {
  stopBelow: {
    default: quantity(45, "psi") as Quantity,
    citation: "FDA 1992 draft checkout: lower end of 45 to 55 psi",
    iso: {
      default: quantity(320, "kPa") as Quantity,
      citation: "ISO 7396-1: alarm at 20 % under the nominal 400 kPa (from memory)",
    },
  },
  noticeBelow: {
    default: quantity(50, "psi") as Quantity,
    citation: "ASA pre-anesthesia checkout 2008, item 6: at least 50 psi",
    iso: { default: quantity(400, "kPa") as Quantity, citation: "ISO 7396-1: range of 400 to 500 kPa (from memory)" },
  },
  noticeAbove: {
    default: quantity(55, "psi") as Quantity,
    citation: "FDA 1992 draft checkout: upper end of 45 to 55 psi",
    iso: { default: quantity(500, "kPa") as Quantity, citation: "ISO 7396-1: range of 400 to 500 kPa (from memory)" },
  },
  stopAbove: {
    default: quantity(60, "psi") as Quantity,
    citation: "NFPA 99: alarm at 20 % over the nominal 50 psi (from memory)",
    iso: {
      default: quantity(550, "kPa") as Quantity,
      citation: "10 % over the upper end of the range (from memory, low confidence)",
    },
  },
};
type Bands = SettingValues<typeof pipelineBands>;

export function bandAssessment(answer: Answer, bands: Bands): Assessment {
  if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
  if (answer.kind !== "number") return "uncounted";
  const below = isBelow(answer.reading, bands.stopBelow);
  if (below === null) return "uncounted";
  if (below || isAbove(answer.reading, bands.stopAbove) === true) return "fail";
  const offNormal =
    isBelow(answer.reading, bands.noticeBelow) === true || isAbove(answer.reading, bands.noticeAbove) === true;
  return offNormal ? "remark" : "pass";
}

/** The judgement that all three gases share; what a failure means differs and is given. */
export function judgeBands(
  context: RuleContext,
  gas: Gas,
  bands: Bands,
  failed: Partial<FindingDraft>,
): readonly FindingDraft[] {
  for (const { subject, standing } of context.of("pipeline-pressure")) {
    if (subject.id !== gas || standing.state === "owed" || standing.state === "not-asked") continue;
    const { answer, observedAt } = standing.observation;
    if (standing.state === "failing") {
      return [{ ...outsideText(gas, answer, bands), subject, supplyFailure: true, since: observedAt, ...failed }];
    }
    return bandAssessment(answer, bands) === "remark"
      ? [{ ...noticeText(gas, answer, bands), subject, severity: "note" }]
      : [];
  }
  return [];
}

function outsideText(gas: Gas, answer: Answer, { stopBelow, stopAbove }: Bands) {
  const name = `${GAS_NAMES[gas]} pipeline`;
  if (answer.kind !== "number") return { text: `${name} failed`, measured: null, limit: null };
  const low = isBelow(answer.reading, stopBelow) === true;
  const limit = low ? stopBelow : stopAbove;
  return {
    text: `${name} ${said(answer.reading)} (${low ? "at least" : "at most"} ${said(limit)})`,
    measured: answer.reading,
    limit,
  };
}

function noticeText(gas: Gas, answer: Answer, { noticeBelow, noticeAbove }: Bands) {
  if (answer.kind !== "number") return { text: `${GAS_NAMES[gas]} pipeline off its normal pressure` };
  const low = isBelow(answer.reading, noticeBelow) === true;
  const normal = `normal ${numeral(noticeBelow.value)} to ${said(noticeAbove)}`;
  const text = `${GAS_NAMES[gas]} pipeline ${said(answer.reading)}, ${low ? "low" : "high"} (${normal})`;
  return { text, measured: answer.reading, limit: low ? noticeBelow : noticeAbove };
}

/** Both sides of every edge, for the rule of one gas. */
export function bandExamples(gas: Gas, failed: "stops" | "limits"): RuleExample[] {
  const at = (value: number, unit: "psi" | "kPa", expect: RuleExample["expect"]): RuleExample => ({
    name: `${value} ${unit}`,
    scheme: unit === "psi" ? "US" : "ISO",
    given: (ready) => answered(ready, "pipeline-pressure", reading(value, unit), about(gas)),
    expect,
  });
  return [
    at(44.9, "psi", failed),
    at(45, "psi", "note"),
    at(49.9, "psi", "note"),
    at(50, "psi", "holds"),
    at(55, "psi", "holds"),
    at(55.1, "psi", "note"),
    at(60, "psi", "note"),
    at(60.1, "psi", failed),
    at(319, "kPa", failed),
    at(320, "kPa", "note"),
    at(399, "kPa", "note"),
    at(400, "kPa", "holds"),
    at(500, "kPa", "holds"),
    at(501, "kPa", "note"),
    at(550, "kPa", "note"),
    at(551, "kPa", failed),
    { name: "not read", given: (ready) => unanswered(ready, "pipeline-pressure", about(gas)), expect: "owed" },
  ];
}

/** What the three gases' rules have in common. */
export function pipelineRule(
  gas: Gas,
): Pick<Rule<typeof pipelineBands>, "items" | "settings" | "covers" | "assess" | "shows"> {
  return {
    items: ["pipeline-pressure"],
    settings: pipelineBands,
    covers: (subject) => subject.id === gas,
    assess: (answer, _about, bands) => bandAssessment(answer, bands),
    shows: (_about, { stopBelow, stopAbove }) => ({ atLeast: stopBelow, atMost: stopAbove }),
  };
}
