import { cylinderContents } from "@/lib/calculations/cylinder-contents";
import type { Answer } from "@/lib/domain/answer";
import { minutesByHand } from "@/lib/domain/endurance";
import type { Evidence, Observation } from "@/lib/domain/evidence";
import { ITEMS, type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import { contextAt } from "@/lib/domain/judge-context";
import { indexOf } from "@/lib/domain/judge-index";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import type { Procedure } from "@/lib/domain/procedure/model";
import { numeral, saidAnswer } from "@/lib/domain/wording";
import type { RoomView } from "@/lib/schemas/room";
import { instantOf } from "@/lib/units/time";

type Part = RoomView["parts"][number];

/** Every part of the gas path and what stands beside it: its latest record, how it counts now, and what it is worth. */
export function partsOf(evidence: Evidence, procedure: Procedure | null, names: ReadonlyMap<string, string>): Part[] {
  if (!procedure || !evidence.workstation) return [];
  const context = contextAt(indexOf(evidence), instantOf(evidence.now));
  return expandProcedure(procedure, evidence).map((question) => {
    const { item, subject } = question;
    const standing = context.standing(item, subject).state;
    return partOf(evidence, question, standing === "not-asked" ? "noted" : standing, names);
  });
}

function partOf(
  evidence: Evidence,
  question: CheckItem,
  standing: Part["standing"],
  names: ReadonlyMap<string, string>,
): Part {
  const latest = latestOf(evidence.observations, question.item, question.subject);
  return {
    key: question.key,
    item: question.item,
    itemName: ITEMS[question.item].name,
    subject: question.subject,
    subjectName: question.subjectName,
    standing,
    answer: latest?.answer ?? null,
    shown: latest ? inItsWords(latest.answer, question.form) : null,
    worth: latest ? worthOf(latest.answer, question.subject, evidence) : null,
    limit: question.limits?.text ?? null,
    at: latest?.observedAt ?? null,
    by: latest ? (names.get(latest.by) ?? "unknown") : null,
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

/** "680 L · 85 min by hand": what a gauge reading of a compressed gas means; nothing where the gauge cannot tell. */
export function worthOf(answer: Answer, subject: Subject, evidence: Evidence): string | null {
  const cylinder = evidence.workstation?.fitted.cylinders.find(({ id }) => id === subject.id);
  if (!cylinder || answer.kind !== "gauge" || !answer.openWhenRead) return null;
  const contents = cylinderContents(answer.reading, cylinder);
  if (!contents.ok) return null;
  const litres = `${numeral(Math.round(contents.litres))} L`;
  const minutes = cylinder.gas === "oxygen" ? minutesByHand(answer.reading, cylinder, evidence) : null;
  return minutes === null ? litres : `${litres} · ${numeral(Math.floor(minutes))} min by hand`;
}
