import type { Entry, EvidenceIndex } from "@/lib/domain/judge-index";
import { type PerformedCheck, stillCounts } from "@/lib/domain/judge-signatures";
import { OWED_BECAUSE, type OwedBecause } from "@/lib/domain/judgement";
import type { Standing } from "@/lib/domain/rule";
import type { Instant } from "@/lib/units/time";

export const NOT_ASKED: Standing = { state: "not-asked" };

/** Made once: a room that nobody has looked at owes the same thirty times. */
const OWED = Object.fromEntries(
  OWED_BECAUSE.map((because) => [because, { state: "owed", because, event: null } satisfies Standing]),
) as Record<OwedBecause, Standing>;

const owed = (because: OwedBecause, event: Entry["event"] = null): Standing =>
  event === null ? OWED[because] : { state: "owed", because, event: event.event };

/** The full check that counts at that moment: the newest one whose validity has not ended. */
export function validCheck(index: EvidenceIndex, now: Instant): PerformedCheck | null {
  for (const performed of index.performed) {
    if (index.emergencyUse !== null && performed.startedAt <= index.emergencyUse) continue;
    if (stillCounts(performed.validUntil, now, index.running)) return performed;
  }
  return null;
}

/** The standing of one entry at a moment. A failing answer outlives its check; a passing one does not. */
export function standingOf(entry: Entry, index: EvidenceIndex, now: Instant, valid: PerformedCheck | null): Standing {
  const { failing, passing } = entry;
  if (failing !== null) return failing;
  const settled = passing !== null && !isUnsettled(entry);
  if (entry.byEvent && !entry.byProcedure) return standingByEvent(entry, valid, settled);
  if (settled && passCounts(entry, index, now, valid)) return passing;
  return entry.byProcedure ? whyOwed(entry, index, valid, settled) : NOT_ASKED;
}

/**
 * Asked for by an event alone: once answered well it is done, and no check day ends it. An event that nobody recorded asks
 * only until the next full check, or every part of a newly imported department would be owed twice.
 */
function standingByEvent(entry: Entry, valid: PerformedCheck | null, settled: boolean): Standing {
  const { decided, event, passing } = entry;
  if (settled && passing !== null) return passing;
  if (event?.implied && (valid === null || !happenedSince(entry, valid))) return NOT_ASKED;
  return owed(decided.uncounted ? "read-shut" : "recheck", event);
}

/** An event, or the part itself having been fitted, after the look; where either order is possible it is unsettled. */
function isUnsettled({ decided, event, fittedFrom }: Entry): boolean {
  if (decided.pass === null) return false;
  const seen = decided.pass.earliest;
  return (event !== null && event.at > seen) || (fittedFrom !== null && fittedFrom > seen);
}

/** An answer of a full check counts for its own check day; one of a recheck only within a full check that still counts. */
function passCounts(entry: Entry, index: EvidenceIndex, now: Instant, valid: PerformedCheck | null): boolean {
  const { decided, passValidUntil } = entry;
  if (decided.pass === null || passValidUntil === null) return false;
  return stillCounts(passValidUntil, now, index.running) && (decided.pass.fromFullCheck || valid !== null);
}

function whyOwed(entry: Entry, index: EvidenceIndex, valid: PerformedCheck | null, settled: boolean): Standing {
  const { decided, event } = entry;
  if (index.firstUserOwedSince !== null && event?.event.kind === "serviced") return owed("first-user", event);
  if (valid === null) return owed(decided.pass ? "expired" : "not-checked");
  if (decided.uncounted) return owed("read-shut");
  if (isBeyond(entry, index, valid)) return NOT_ASKED;
  // A part fitted after the check was begun owes what its event says, and no more of the daily procedure.
  if (fittedSince(entry, valid)) return recheckOfPart(entry);
  if (happenedSince(entry, valid)) return owed("recheck", event);
  return owed(settled ? "expired" : "incomplete");
}

/** Only a version newer than the check asks it: the check keeps its word for its own day, unless the site decided otherwise. */
const isBeyond = ({ askedSince }: Entry, { newItemsAtOnce }: EvidenceIndex, valid: PerformedCheck): boolean =>
  !newItemsAtOnce && askedSince !== null && askedSince > valid.startedAt;

const happenedSince = ({ event }: Entry, valid: PerformedCheck): boolean =>
  event !== null && event.at > valid.startedAt;

const fittedSince = ({ fittedFrom }: Entry, valid: PerformedCheck): boolean =>
  fittedFrom !== null && fittedFrom > valid.startedAt;

function recheckOfPart({ event, fittedFrom }: Entry): Standing {
  const byItsEvent = event !== null && fittedFrom !== null && event.at >= fittedFrom;
  return byItsEvent ? owed("recheck", event) : NOT_ASKED;
}
