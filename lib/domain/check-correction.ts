import { answerKey, type GivenAnswer, standingAnswers } from "@/lib/domain/check/model";
import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import { itemOf, type Subject } from "@/lib/domain/items";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import { answerProblem } from "@/lib/domain/verdict";
import { subjectName } from "@/lib/domain/wording";

/** An answer that stands on the right workstation as well: about which subject, and which question it answers there. */
export interface CarriedAnswer {
  readonly given: GivenAnswer;
  readonly subject: Subject;
  readonly question: CheckItem;
}

export interface DroppedAnswer {
  readonly itemName: string;
  readonly subjectName: string;
  readonly why: string;
}

export interface Correction {
  readonly carried: readonly CarriedAnswer[];
  readonly dropped: readonly DroppedAnswer[];
}

/**
 * What of a check's answers can be said of another workstation: they were given while looking at that one, so each is about the part in the
 * same place there. Where there is no such part, or its limits make the answer impossible, it is told and left to be answered anew.
 */
export function carryAnswers(
  answers: readonly GivenAnswer[],
  wrong: Evidence,
  right: Evidence,
  asked: readonly CheckItem[],
): Correction {
  const questions = new Map(asked.map((question) => [question.key, question]));
  const carried: CarriedAnswer[] = [];
  const dropped: DroppedAnswer[] = [];
  for (const given of standingAnswers(answers).values()) {
    const subject = counterpart(given.subject, wrong, right);
    const question = subject && questions.get(answerKey(given.item, subject));
    const problem = question ? answerProblem(question, given.answer) : null;
    if (subject && question && problem === null) carried.push({ given, subject, question });
    else
      dropped.push({
        itemName: itemOf(given.item).name,
        subjectName: subjectName(given.subject, wrong.workstation),
        why: problem?.message ?? (subject ? "is not asked there" : "has nothing in the same place there"),
      });
  }
  return { carried, dropped };
}

function counterpart({ kind, id }: Subject, wrong: Evidence, right: Evidence): Subject | null {
  switch (kind) {
    case "workstation":
      return right.workstation && { kind, id: right.workstation.id };
    case "room":
      return right.room && { kind, id: right.room.id };
    case "pipeline":
      return { kind, id };
    default: {
      const place = placesOf(kind, wrong.workstation).find((part) => part.id === id);
      const found = place && placesOf(kind, right.workstation).find((part) => part.place === place.place);
      return found ? { kind, id: found.id } : null;
    }
  }
}

/** Every fitted part by the place that tells it from its neighbours: the yoke with its gas, the mount with its agent. */
function placesOf(
  kind: "cylinder" | "vaporizer" | "absorbent" | "oxygen-sensor",
  workstation: WorkstationEvidence | null,
): readonly { readonly id: string; readonly place: string }[] {
  if (workstation === null) return [];
  const { cylinders, vaporizers, absorbent, oxygenSensor } = workstation.fitted;
  switch (kind) {
    case "cylinder":
      return cylinders.map(({ id, position, gas }) => ({ id, place: `${position} ${gas}` }));
    case "vaporizer":
      return vaporizers.map(({ id, mount, agent }) => ({ id, place: `${mount} ${agent}` }));
    case "absorbent":
      return absorbent.map(({ id, position }) => ({ id, place: position }));
    case "oxygen-sensor":
      return oxygenSensor === null ? [] : [{ id: oxygenSensor.id, place: oxygenSensor.kind }];
  }
}
