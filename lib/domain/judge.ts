import type { Evidence } from "@/lib/domain/evidence";
import { JudgeContext } from "@/lib/domain/judge-context";
import { findingsOf } from "@/lib/domain/judge-findings";
import { goodUntil, type Judged } from "@/lib/domain/judge-good-until";
import { indexOf } from "@/lib/domain/judge-index";
import type { Finding, Judgement, Owed, Readiness } from "@/lib/domain/judgement";
import { fitsList } from "@/lib/domain/needs";
import { countersign } from "@/lib/domain/rules/check/countersign";
import { providerMarkOwed } from "@/lib/domain/rules/check/provider-mark-owed";
import { morning } from "@/lib/domain/rules/policy/morning";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { Limit } from "@/lib/domain/vocabulary";
import { valueIn } from "@/lib/units/quantity";
import { instantOf, later, MINUTE, type Timestamp, timestampOf } from "@/lib/units/time";

/**
 * What the evidence of one room, or of one spare workstation, says at the evidence's own moment.
 *
 * in        one evidence document; nothing else is looked at, the clock included
 * out       state, marks, reasons in order of consequence, limits, what is owed, and until when the answer is good
 * cautious  what nobody looked at is owed; what failed stands until a signed later look; what cannot be told apart in time counts
 *           against readiness
 * not for   deciding whether to start a case: that is the provider's own judgement, with the maker's instructions at hand
 */
export function judge(evidence: Evidence): Judgement {
  const index = indexOf(evidence);
  const context = new JudgeContext(index, instantOf(evidence.now));
  const judgement = judgementAt(context);
  return { ...judgement, goodUntil: goodUntil(context, judgement, (at) => new JudgeContext(index, at), judgementAt) };
}

function judgementAt(context: JudgeContext): Judged {
  const { evidence } = context;
  const found = findingsOf(context);
  const owed = context.owed();
  const state = stateOf(found, owed);
  const limits = limitsOf(found);
  const ready = state === "ready" || state === "ready-limited";
  const reasons = ready ? found : found.filter((finding) => !isOfAStart(finding, evidence));
  return {
    state,
    marks: context.marks(),
    reasons,
    limits,
    owed,
    readyForList: ready && fitsList(limits, evidence.room?.list ?? null),
    whenInUse: context.isCaseRunning() ? whenInUse(reasons) : null,
    decideBy: ready ? null : decideBy(evidence),
  };
}

/**
 * The provider's own check is of a workstation that could start; on any other it would be asked for nothing. And the clock infers
 * that the first case began only in a room that was ready: elsewhere only a case that people said began is countersigned.
 */
const isOfAStart = ({ rule }: Finding, { room }: Evidence): boolean =>
  rule === providerMarkOwed.id || (rule === countersign.id && room?.occupancy.state !== "in-use");

/** The strongest wins. Reasons come in order of consequence, but what is owed as an item may stand without a reason of its own. */
function stateOf(reasons: readonly Finding[], owed: readonly Owed[]): Readiness {
  const severity = reasons[0]?.severity;
  if (severity === "out") return "out-of-service";
  if (severity === "stops") return "do-not-use";
  if (owed.length > 0 || severity === "owed") return "to-check";
  return severity === "limits" ? "ready-limited" : "ready";
}

function limitsOf(reasons: readonly Finding[]): Limit[] {
  const limits: Limit[] = [];
  for (const { severity, takesAway } of reasons) {
    if (severity === "limits") limits.push(...takesAway.filter((limit) => !limits.includes(limit)));
  }
  return limits;
}

/** Nothing changes a room with a case in it: a stop waits for its end, unless the patient's own supply is what failed. */
function whenInUse(reasons: readonly Finding[]): Judgement["whenInUse"] {
  const stopping = reasons.filter(({ severity }) => severity === "stops" || severity === "out");
  if (stopping.length === 0) return null;
  return stopping.some(({ supplyFailure }) => supplyFailure) ? "act-now" : "after-this-case";
}

/** After this moment there is no longer time to swap the workstation before the first case. */
function decideBy(evidence: Evidence): Timestamp | null {
  const { room } = evidence;
  const firstCase = room?.list?.firstCase ?? null;
  if (room === null || firstCase === null || room.occupancy.state !== "idle") return null;
  const swapMinutes = valueIn(valuesOf(morning, evidence).swap, "min") ?? 0;
  return timestampOf(later(instantOf(firstCase), -swapMinutes * MINUTE));
}
