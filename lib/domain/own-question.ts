import type { Answer } from "@/lib/domain/answer";
import type { OwnQuestion } from "@/lib/domain/evidence-records";
import { type ItemId, isOwnItem } from "@/lib/domain/items";
import type { OwnItem, ProcedureItem } from "@/lib/domain/procedure/model";
import type { Assessment, Place, ShownLimit } from "@/lib/domain/rule";
import { type PressureUnit, pressureIn } from "@/lib/units/pressure";
import { isAbove, isBelow, type Quantity, quantity, type Unit } from "@/lib/units/quantity";

/** Questions that a site added to its procedures: what their answers are worth, as the site chose. */

export const isOwn = (item: ProcedureItem): item is OwnItem => isOwnItem(item.item);

/** What the judge must know of a site's own question. Limits are in the unit that is typed. */
export function ownQuestionOf(item: OwnItem, sitePressure: PressureUnit): OwnQuestion {
  const { answer, limits } = item;
  const unit = answer.kind === "number" ? answer.unit : null;
  const inUnit = (limit: number | undefined): Quantity | undefined => {
    if (limit === undefined || unit === null) return undefined;
    return unit === "site-pressure"
      ? quantity(pressureIn(limit, "psi", sitePressure), sitePressure)
      : quantity(limit, unit as Unit);
  };
  const [atLeast, atMost] = [inUnit(limits?.atLeast), inUnit(limits?.atMost)];
  return {
    item: item.item,
    failing: item.failing ?? "stops",
    ...(atLeast ? { atLeast } : {}),
    ...(atMost ? { atMost } : {}),
  };
}

export function ownQuestion(item: ItemId, { procedure }: Pick<Place, "procedure">): OwnQuestion | null {
  if (!isOwnItem(item)) return null;
  return procedure?.own?.find((one) => one.item === item) ?? null;
}

/** A question that no procedure in force asks any more says nothing: the site took it back. Without a list it is asked. */
export const isTakenBack = (item: ItemId, place: Pick<Place, "procedure">): boolean =>
  isOwnItem(item) && place.procedure?.own !== undefined && ownQuestion(item, place) === null;

/** Null where the site set no limit. */
export function ownAssessment(answer: Answer, item: ItemId, place: Pick<Place, "procedure">): Assessment | null {
  const question = ownQuestion(item, place);
  if (question === null || answer.kind !== "number") return null;
  const { atLeast, atMost } = question;
  if (atLeast !== undefined && isBelow(answer.reading, atLeast)) return "fail";
  if (atMost !== undefined && isAbove(answer.reading, atMost)) return "fail";
  return null;
}

export function ownLimit(item: ItemId, place: Pick<Place, "procedure">): ShownLimit | null {
  const question = ownQuestion(item, place);
  if (question === null || (question.atLeast === undefined && question.atMost === undefined)) return null;
  return {
    ...(question.atLeast ? { atLeast: question.atLeast } : {}),
    ...(question.atMost ? { atMost: question.atMost } : {}),
  };
}
