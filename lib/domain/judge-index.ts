import { type CheckClock, checkDayAt } from "@/lib/domain/check-day";
import type { Evidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import { type Collected, type Collection, collect, placeOf } from "@/lib/domain/judge-collect";
import { askedByEvents, eventsOf, type ReadEvent, unsettledBy } from "@/lib/domain/judge-events";
import { fittedFrom } from "@/lib/domain/judge-here";
import { type Decided, decide, NOTHING_SEEN } from "@/lib/domain/judge-sightings";
import {
  byText,
  type PerformedCheck,
  performedChecks,
  type ReadCheck,
  type RunningCase,
  readCheck,
} from "@/lib/domain/judge-signatures";
import type { Rule } from "@/lib/domain/rule";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { type Instant, instantOf } from "@/lib/units/time";

/** One item about one subject, with everything about it that the clock does not change. */
export interface Entry {
  readonly item: ItemId;
  readonly subject: Subject;
  /** The rule that judges it; null leaves it to the generic one. */
  readonly owner: Rule | null;
  /** Asked by the daily procedure; otherwise here because an event asks for it, or because somebody answered it. */
  readonly byProcedure: boolean;
  readonly byEvent: boolean;
  readonly decided: Decided;
  /** End of the validity of the passing answer, a running case aside. */
  readonly passValidUntil: Instant | null;
  /** The latest event that unsettles what was seen before it. */
  readonly event: ReadEvent | null;
  /** Since when the subject itself is fitted; null for what is not a fitted part. */
  readonly fittedFrom: Instant | null;
}

/** The evidence of one room, prepared once; judging at another moment asks the clock alone. */
export interface EvidenceIndex {
  readonly evidence: Evidence;
  readonly clock: CheckClock;
  readonly entries: readonly Entry[];
  readonly checks: readonly ReadCheck[];
  readonly performed: readonly PerformedCheck[];
  readonly events: readonly ReadEvent[];
  readonly running: RunningCase;
  readonly firstUserOwedSince: Instant | null;
}

export function indexOf(evidence: Evidence): EvidenceIndex {
  const clock = checkClock(evidence);
  const checks = evidence.checks.map(readCheck);
  const collection = collect(evidence, new Map(checks.map((one) => [one.check.id, one])));
  const events = eventsOf(evidence, earliestOf(collection, checks));
  for (const { item, subject } of askedByEvents(events, evidence)) {
    placeOf(collection, item, subject, evidence).byEvent = true;
  }
  const performed = performedChecks(checks, clock);
  return {
    evidence,
    clock,
    entries: entriesOf(collection, evidence, clock, events),
    checks,
    performed,
    events,
    running: runningCase(evidence),
    firstUserOwedSince: firstUserOwedSince(evidence, performed),
  };
}

/** Only a case that a person confirmed softens anything; one that the clock inferred does not. */
function runningCase({ room }: Evidence): RunningCase {
  const occupancy = room?.occupancy;
  return occupancy?.state === "in-use" && occupancy.confirmed ? { since: instantOf(occupancy.since) } : null;
}

/** After service the first user's own check is owed until it is recorded as such, whatever else was checked that day. */
function firstUserOwedSince({ workstation }: Evidence, performed: readonly PerformedCheck[]): Instant | null {
  const owed = workstation?.firstUserCheckOwedSince ?? null;
  if (owed === null) return null;
  const since = instantOf(owed);
  const done = performed.some(({ check, startedAt }) => check.kind === "first-user" && startedAt >= since);
  return done ? null : since;
}

/** The earliest moment at which anything was seen or a check begun; null when nothing ever was. */
function earliestOf(collection: Collection, checks: readonly ReadCheck[]): Instant | null {
  let found: Instant | null = null;
  for (const { startedAt } of checks) if (found === null || startedAt < found) found = startedAt;
  for (const ofItem of collection.values()) {
    for (const { sightings } of ofItem) {
      for (const { earliest } of sightings) if (found === null || earliest < found) found = earliest;
    }
  }
  return found;
}

function entriesOf(
  collection: Collection,
  evidence: Evidence,
  clock: CheckClock,
  events: readonly ReadEvent[],
): Entry[] {
  const covered = evidence.workstation?.model.selfTestCovers ?? [];
  const asked: Entry[] = [];
  const others: Entry[] = [];
  for (const ofItem of collection.values()) {
    for (const collected of ofItem) {
      if (!collected.here) continue;
      (collected.byProcedure ? asked : others).push(entryOf(collected, evidence, clock, events, covered));
    }
  }
  // The procedure says its own order; the rest must not depend on how the evidence happens to be listed.
  return asked.concat(others.sort(byItemAndSubject));
}

const byItemAndSubject = (left: Entry, right: Entry): number =>
  byText(left.item, right.item) ||
  byText(left.subject.kind, right.subject.kind) ||
  byText(left.subject.id, right.subject.id);

function entryOf(
  { item, subject, owner, byProcedure, byEvent, sightings }: Collected,
  evidence: Evidence,
  clock: CheckClock,
  events: readonly ReadEvent[],
  covered: readonly ItemId[],
): Entry {
  const passClears = owner?.passClears?.(subject, evidence) ?? true;
  const decided = sightings.length === 0 ? NOTHING_SEEN : decide(sightings, passClears);
  return {
    item,
    subject,
    owner,
    byProcedure,
    byEvent,
    decided,
    passValidUntil: decided.pass ? checkDayAt(clock, decided.pass.earliest).validUntil : null,
    event: unsettledBy(events, item, subject, covered),
    fittedFrom: fittedFrom(subject, evidence.workstation),
  };
}
