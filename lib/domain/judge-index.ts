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
import type { Owed } from "@/lib/domain/judgement";
import type { Rule, Standing, Stands } from "@/lib/domain/rule";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { procedureChange } from "@/lib/domain/rules/policy/procedure-change";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { EventKind } from "@/lib/domain/vocabulary";
import { type Instant, instantOf } from "@/lib/units/time";

/** One item about one subject, with everything about it that the clock does not change. */
export interface Entry {
  readonly item: ItemId;
  readonly subject: Subject;
  /** The rule that judges it; null leaves it to the generic one. */
  readonly owner: Rule | null;
  /** Asked by the daily procedure; otherwise here because an event asks for it, or because somebody answered it. */
  readonly byProcedure: boolean;
  /** Since when the procedure asks it, where an earlier version did not; null where it always did. */
  readonly askedSince: Instant | null;
  readonly byEvent: boolean;
  readonly decided: Decided;
  /** End of the validity of the passing answer, a running case aside. */
  readonly passValidUntil: Instant | null;
  /** The latest event that unsettles what was seen before it. */
  readonly event: ReadEvent | null;
  /** Since when the subject itself is fitted; null for what is not a fitted part. */
  readonly fittedFrom: Instant | null;
  /** How it stands when it stands by what was seen; null where nothing was. Made once, as judging asks at several moments. */
  readonly failing: Standing | null;
  readonly passing: Standing | null;
  /** What it was told as last: most items stand the same at the next moment, too. */
  told: { readonly stands: Stands; readonly owed: Owed | null } | null;
}

/** The evidence of one room, prepared once; judging at another moment asks the clock alone. */
export interface EvidenceIndex {
  readonly evidence: Evidence;
  readonly clock: CheckClock;
  readonly entries: readonly Entry[];
  /** The places of an item's entries in that list. */
  readonly places: ReadonlyMap<ItemId, readonly number[]>;
  readonly checks: readonly ReadCheck[];
  readonly performed: readonly PerformedCheck[];
  readonly events: readonly ReadEvent[];
  readonly running: RunningCase;
  readonly firstUserOwedSince: Instant | null;
  /** The last time a case began here although the room might not start: no check from before it counts afterwards. */
  readonly emergencyUse: Instant | null;
  /** What a new version asks is owed by checks that were begun before it, too. */
  readonly newItemsAtOnce: boolean;
}

export function indexOf(evidence: Evidence): EvidenceIndex {
  const clock = checkClock(evidence);
  const here = evidence.workstation?.id ?? null;
  const checks = evidence.checks.map((check) => readCheck(check, here));
  const collection = collect(evidence, new Map(checks.map((one) => [one.check.id, one])));
  const events = eventsOf(evidence, earliestOf(collection, checks));
  for (const { item, subject } of askedByEvents(events, evidence)) {
    placeOf(collection, item, subject, evidence).byEvent = true;
  }
  const performed = performedChecks(checks, clock);
  const entries = entriesOf(collection, evidence, clock, events);
  return {
    evidence,
    clock,
    entries,
    places: placesByItem(entries),
    checks,
    performed,
    events,
    running: runningCase(evidence),
    firstUserOwedSince: firstUserOwedSince(evidence, performed, lastOf(events, "serviced")),
    emergencyUse: lastOf(events, "emergency-use"),
    newItemsAtOnce: valuesOf(procedureChange, evidence).owedAtOnce,
  };
}

/** Only a case that a person confirmed softens anything; one that the clock inferred does not. */
function runningCase({ room }: Evidence): RunningCase {
  const occupancy = room?.occupancy;
  return occupancy?.state === "in-use" && occupancy.confirmed ? { since: instantOf(occupancy.since) } : null;
}

function lastOf(events: readonly ReadEvent[], kind: EventKind): Instant | null {
  let last: Instant | null = null;
  for (const { event, at } of events) if (event.kind === kind && (last === null || at > last)) last = at;
  return last;
}

/**
 * After service the first user's own check is owed until it is recorded as such, whatever else was checked that day. Where the
 * record says only that it was serviced, it is owed as long as no whole check was begun since.
 */
function firstUserOwedSince(
  { workstation }: Evidence,
  performed: readonly PerformedCheck[],
  serviced: Instant | null,
): Instant | null {
  if (workstation === null) return null;
  const owed = workstation.firstUserCheckOwedSince;
  if (owed !== null) {
    const since = instantOf(owed);
    const done = performed.some(({ check, startedAt }) => check.kind === "first-user" && startedAt >= since);
    if (!done) return since;
  }
  return serviced === null || performed.some(({ startedAt }) => startedAt > serviced) ? null : serviced;
}

/** The earliest moment at which anything was seen or a check begun; null when nothing ever was. */
function earliestOf(collection: Collection, checks: readonly ReadCheck[]): Instant | null {
  let found: Instant | null = null;
  for (const { startedAt } of checks) if (found === null || startedAt < found) found = startedAt;
  for (const ofItem of collection) {
    for (const { sightings } of ofItem ?? []) {
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
  const entries: Entry[] = [];
  for (const ofItem of collection) {
    if (ofItem === undefined) continue;
    // Nothing may depend on how the evidence happens to be listed.
    if (ofItem.length > 1) ofItem.sort(bySubject);
    for (const collected of ofItem) {
      if (collected.here) entries.push(entryOf(collected, evidence, clock, events, covered));
    }
  }
  return entries;
}

function placesByItem(entries: readonly Entry[]): ReadonlyMap<ItemId, readonly number[]> {
  const places = new Map<ItemId, number[]>();
  entries.forEach(({ item }, place) => {
    const known = places.get(item);
    if (known === undefined) places.set(item, [place]);
    else known.push(place);
  });
  return places;
}

const bySubject = (left: Collected, right: Collected): number =>
  byText(left.subject.kind, right.subject.kind) || byText(left.subject.id, right.subject.id);

function entryOf(
  { item, subject, owner, byProcedure, askedSince, byEvent, sightings }: Collected,
  evidence: Evidence,
  clock: CheckClock,
  events: readonly ReadEvent[],
  covered: readonly ItemId[],
): Entry {
  const passClears = owner?.passClears?.(subject, evidence) ?? true;
  const decided = sightings.length === 0 ? NOTHING_SEEN : decide(sightings, passClears);
  const { failing, pass } = decided;
  return {
    item,
    subject,
    owner,
    byProcedure,
    askedSince,
    byEvent,
    decided,
    passValidUntil: pass ? checkDayAt(clock, pass.earliest).validUntil : null,
    event: unsettledBy(events, item, subject, covered),
    fittedFrom: fittedFrom(subject, evidence.workstation),
    failing: failing && { state: "failing", observation: failing.observation },
    passing: pass && { state: "passing", observation: pass.observation },
    told: null,
  };
}
