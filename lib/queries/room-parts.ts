import type { Answer } from "@/lib/domain/answer";
import { worthText } from "@/lib/domain/contents";
import { driveFlow, reserveMinutes } from "@/lib/domain/endurance";
import type { Evidence, Observation } from "@/lib/domain/evidence";
import { gaugeChange } from "@/lib/domain/gauge-change";
import { gaugeWorth } from "@/lib/domain/gauge-worth";
import { type ItemId, itemOf, type Subject, sameSubject } from "@/lib/domain/items";
import { contextAt } from "@/lib/domain/judge-context";
import { indexOf } from "@/lib/domain/judge-index";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import type { Procedure } from "@/lib/domain/procedure/model";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { valuesOf } from "@/lib/domain/rules/settings";
import { numeral, saidAnswer } from "@/lib/domain/wording";
import type { RoomView } from "@/lib/schemas/room";
import { type SeriesPoint, seriesKey } from "@/lib/storage/reading-series";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { instantOf } from "@/lib/units/time";

type Part = RoomView["parts"][number];
type Series = ReadonlyMap<string, readonly SeriesPoint[]>;

/** Every part of the gas path and what stands beside it: its latest record, how it counts now, and what it is worth. */
export function partsOf(
  evidence: Evidence,
  procedure: Procedure | null,
  names: ReadonlyMap<string, string>,
  series: Series,
): Part[] {
  if (!procedure || !evidence.workstation) return [];
  const context = contextAt(indexOf(evidence), instantOf(evidence.now));
  return expandProcedure(procedure, evidence).map((question) => {
    const { item, subject } = question;
    const standing = context.standing(item, subject).state;
    return partOf(evidence, question, standing === "not-asked" ? "noted" : standing, names, series);
  });
}

function partOf(
  evidence: Evidence,
  question: CheckItem,
  standing: Part["standing"],
  names: ReadonlyMap<string, string>,
  series: Series,
): Part {
  const readings = readingsOf(series, question);
  const latest = latestOf(evidence.observations, question.item, question.subject);
  return {
    key: question.key,
    item: question.item,
    itemName: itemOf(question.item).name,
    subject: question.subject,
    subjectName: question.subjectName,
    standing,
    answer: latest?.answer ?? null,
    shown: latest ? inItsWords(latest.answer, question.form) : null,
    worth: latest ? worthOf(latest.answer, question.subject, evidence) : null,
    limit: question.limits?.text ?? null,
    atLeast: question.limits?.atLeast ?? null,
    atMost: question.limits?.atMost ?? null,
    at: latest?.observedAt ?? null,
    by: latest ? (names.get(latest.by) ?? "unknown") : null,
    since: sinceBefore(readings, question.subject, evidence),
    trend: headingOf(evidence.trends, question),
    series: readings,
  };
}

function headingOf(trends: Evidence["trends"], { item, subject }: CheckItem): Part["trend"] {
  const found = trends.find((trend) => trend.item === item && sameSubject(trend.subject, subject));
  if (!found?.slope || found.crossing === null) return null;
  const { slope, crossing, between } = found;
  return { slope, crossing, from: between?.from ?? crossing, to: between ? between.to : crossing };
}

/** What was measured of one question; a gauge read with its valve shut measured nothing. */
function readingsOf(series: Series, { item, subject }: CheckItem): Part["series"] {
  return (series.get(seriesKey(item, subject.id)) ?? []).flatMap(({ at, answer, failed }) => {
    const reading = measuredIn(answer);
    return reading === null ? [] : [{ at, reading, failed }];
  });
}

function measuredIn(answer: Answer): Quantity | null {
  if (answer.kind === "number") return answer.reading;
  if (answer.kind === "gauge") return answer.openWhenRead ? answer.reading : null;
  return answer.kind === "timed" ? quantity(answer.seconds, "s") : null;
}

function sinceBefore(readings: Part["series"], subject: Subject, evidence: Evidence): string | null {
  const cylinder = evidence.workstation?.fitted.cylinders.find(({ id }) => id === subject.id);
  const [before, now] = readings.slice(-2);
  if (!cylinder || !before || !now) return null;
  const read = ({ reading, at }: Part["series"][number]) => ({ reading, at: instantOf(at) });
  return gaugeChange(read(before), read(now), cylinder, evidence);
}

/** Each oxygen cylinder that was read open, and what is taken as its use; null without one. */
export function enduranceOf(evidence: Evidence, parts: readonly Part[]): RoomView["endurance"] {
  const { workstation } = evidence;
  const values = valuesOf(endurance, evidence);
  if (!workstation) return null;
  const cylinders = workstation.fitted.cylinders.flatMap((cylinder) => {
    const part = parts.find(({ item, subject }) => item === "cylinder-gauge" && subject.id === cylinder.id);
    if (cylinder.gas !== "oxygen" || part?.answer?.kind !== "gauge" || !part.answer.openWhenRead || !part.at) return [];
    const { reading } = part.answer;
    const worth = gaugeWorth(reading, cylinder, evidence);
    const minutes = reserveMinutes(reading, cylinder, evidence, workstation.model);
    if (worth.kind !== "litres" || minutes === null) return [];
    const { litres, low, high } = worth;
    return [{ position: cylinder.position, reading, at: part.at, litres, low: Math.max(0, low), high, ...minutes }];
  });
  return cylinders.length === 0
    ? null
    : {
        cylinders,
        freshGas: values.byHandFlow,
        driveGas: quantity(driveFlow(workstation.model, evidence), "L/min"),
        residual: values.residual,
        temperature: values.gasTemperature,
      };
}

/** An answer as it was given: in the words of the question, where it offered some. */
function inItsWords(answer: Answer, form: CheckItem["form"]): string {
  if (answer.kind === "pass" && form.kind === "pass") return answer.passed ? form.yes : form.no;
  if (answer.kind === "choice" && form.kind === "choice")
    return form.options.find(({ value }) => value === answer.choice)?.label ?? saidAnswer(answer);
  return saidAnswer(answer);
}

function latestOf(observations: readonly Observation[], item: ItemId, subject: Subject): Observation | null {
  let latest: Observation | null = null;
  for (const observation of observations) {
    if (observation.item !== item || !sameSubject(observation.subject, subject)) continue;
    if (latest === null || instantOf(observation.observedAt) >= instantOf(latest.observedAt)) latest = observation;
  }
  return latest;
}

/** "640 L (612 to 668) · 54 min by hand · 24 min on the ventilator": what a gauge reading means; nothing where it cannot tell. */
export function worthOf(answer: Answer, subject: Subject, evidence: Evidence): string | null {
  const { workstation } = evidence;
  const cylinder = workstation?.fitted.cylinders.find(({ id }) => id === subject.id);
  if (!workstation || !cylinder || answer.kind !== "gauge" || !answer.openWhenRead) return null;
  const contents = worthText(gaugeWorth(answer.reading, cylinder, evidence));
  const minutes = reserveMinutes(answer.reading, cylinder, evidence, workstation.model);
  if (contents === null || minutes === null) return contents;
  const byHand = `${contents} · ${numeral(minutes.byHand)} min by hand`;
  return minutes.onVentilator === minutes.byHand
    ? `${byHand} or on the ventilator`
    : `${byHand} · ${numeral(minutes.onVentilator)} min on the ventilator`;
}
