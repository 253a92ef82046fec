import { boardSummary } from "@/lib/domain/board-summary";
import { answerHolds, type CheckDay } from "@/lib/domain/check-day";
import { judge } from "@/lib/domain/judge";
import type { Mark } from "@/lib/domain/judgement";
import { tasksFor } from "@/lib/domain/task/decide";
import type { TaskDraft } from "@/lib/domain/task/model";
import type { BoardRow } from "@/lib/schemas/board";
import type { BoardRowRecord } from "@/lib/storage/board-rows";
import type { Holder } from "@/lib/storage/evidence";
import { instant, instantOf, timestampOf } from "@/lib/units/time";

/** A room whose stored answer the clock has overtaken, or that was never judged, is judged here and now from its evidence. */
export function judgedNow(record: BoardRowRecord, holder: Holder, today: CheckDay): BoardRowRecord {
  const judgement = judge(holder.evidence);
  return {
    ...record,
    judgement,
    summary: { ...boardSummary(holder.evidence, judgement), listFrom: holder.listFrom },
    goodUntil: answerHolds(judgement.goodUntil, today),
    tasks: tasksNow(record, tasksFor(judgement, holder.evidence)),
  };
}

/** Work that goes on stays where it was, with who is on it; work that the clock has just made comes after it. */
function tasksNow({ tasks }: BoardRowRecord, drafts: readonly TaskDraft[]): BoardRowRecord["tasks"] {
  const goesOn = tasks.flatMap((task) => {
    const document = drafts.find(({ key }) => key === task.key);
    return document ? [{ ...task, document }] : [];
  });
  const fresh = drafts
    .filter(({ key }) => !tasks.some((task) => task.key === key))
    .sort((left, right) => (left.key < right.key ? -1 : 1))
    .map((document) => ({ key: document.key, document, person: null, claimedAt: null }));
  return [...goesOn, ...fresh];
}

export const isOverdue = ({ judgement, goodUntil }: BoardRowRecord, now: number): boolean =>
  judgement === null || (goodUntil !== null && goodUntil <= now);

/** Row and judgement as the board shows them. Throws on an unjudged record: the caller judges those first. */
export function boardRowOf(record: BoardRowRecord): BoardRow {
  const { judgement, summary } = record;
  if (!judgement || !summary) throw new Error(`room ${record.roomId} is shown without a judgement`);
  const named = (mark: Mark | null) => mark && { name: record.names[mark.by] ?? "unknown", at: mark.at };
  return {
    roomId: record.roomId,
    name: record.name,
    suite: record.suite,
    walkingOrder: record.walkingOrder,
    workstation: record.workstation,
    state: judgement.state,
    occupancy: summary.occupancy,
    marks: { equipment: named(judgement.marks.equipment), provider: named(judgement.marks.provider) },
    headline: summary.headline,
    headlineRule: summary.headlineRule,
    moreReasons: summary.moreReasons,
    limits: [...summary.limits],
    limitsAllowed: summary.limitsAllowed,
    readyForList: judgement.readyForList,
    owedCount: judgement.owed.length,
    whenInUse: judgement.whenInUse,
    firstCase: summary.firstCase,
    listEnd: summary.listEnd,
    needs: [...summary.needs],
    listFrom: summary.listFrom ?? null,
    decideBy: judgement.decideBy,
    goodUntil: record.goodUntil === null ? null : timestampOf(instant(record.goodUntil)),
    reserve: summary.reserve,
    work: workOf(record),
    piped: [...summary.piped],
    wasteGas: summary.wasteGas,
  };
}

/** The provider's own confirmation is not work for the strip. */
function workOf({ tasks }: BoardRowRecord): BoardRow["work"] {
  return tasks
    .filter(({ document }) => document.kind !== "confirm")
    .map(({ key, document, person, claimedAt }) => ({
      taskKey: key,
      title: document.title,
      minutes: document.minutes,
      person,
      claimedAt: claimedAt === null ? null : timestampOf(instantOf(claimedAt)),
    }));
}
