import type { AnswerInput } from "@/lib/commands/answers";
import type { Context, Refusal } from "@/lib/commands/command";
import type { Answer } from "@/lib/domain/answer";
import { answerKey } from "@/lib/domain/check/model";
import { farFromHistory, readingOf, scaleOf, usualOf } from "@/lib/domain/far-from-history";
import { itemOf } from "@/lib/domain/items";
import { type Outcome, refused } from "@/lib/domain/outcome";
import type { CheckItem } from "@/lib/domain/procedure/decide";
import type { Tx } from "@/lib/storage/client";
import type { Holder } from "@/lib/storage/evidence";
import { readingSeries, type SeriesPoint, seriesKey } from "@/lib/storage/reading-series";
import type { Quantity } from "@/lib/units/quantity";

type Series = ReadonlyMap<string, readonly SeriesPoint[]>;

const NO_SERIES: Series = new Map();

/** The earlier readings, read only when a reading is given that nobody has confirmed. */
export function usualsAtHand(
  tx: Tx,
  answers: readonly AnswerInput[],
  holder: Holder | null,
  context: Context,
): Promise<Series> | Series {
  if (!holder?.workstationId || !answers.some(({ answer }) => unconfirmed(answer))) return NO_SERIES;
  const { facilityId } = context.begun.scope;
  return readingSeries(tx, facilityId, holder.workstationId, holder.evidence.room?.id ?? null, context.now);
}

/** The refusal of the first reading far from its history that nobody has confirmed; null when there is none. */
export function farAnswer(
  answers: readonly AnswerInput[],
  series: Series,
  asked: readonly CheckItem[],
): Extract<Outcome<never, Refusal>, { ok: false }> | null {
  const limits = new Map(asked.map((question) => [question.key, question.limits]));
  for (const [index, { item, subject, answer }] of answers.entries()) {
    const reading = unconfirmed(answer);
    if (!reading) continue;
    const readings = (series.get(seriesKey(item, subject.id)) ?? []).flatMap((point) => readingOf(point.answer) ?? []);
    const far = farFromHistory(
      reading,
      usualOf(readings, reading.unit, scaleOf(limits.get(answerKey(item, subject)) ?? null)),
    );
    if (far)
      return refused(
        "invalid",
        `${itemOf(item).name}: ${far.text} Look again; if it is right, send it with "sure": true.`,
        `answers.${index}.answer.reading`,
      );
  }
  return null;
}

const unconfirmed = (answer: Answer): Quantity | null =>
  (answer.kind === "number" || answer.kind === "gauge") && !answer.sure ? answer.reading : null;
