import type { Evidence, Observation } from "@/lib/domain/evidence";
import { ITEM_IDS, type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import { isHere } from "@/lib/domain/judge-here";
import { type Sighting, sightingOf } from "@/lib/domain/judge-sightings";
import type { ReadCheck } from "@/lib/domain/judge-signatures";
import { isTakenBack } from "@/lib/domain/own-question";
import type { Assessment, Rule } from "@/lib/domain/rule";
import { assessment, ownerOf } from "@/lib/domain/rules/assess";
import { QUARANTINED } from "@/lib/domain/rules/failing";
import { saidAnswer } from "@/lib/domain/wording";
import { type Instant, instant, instantOf, type Timestamp } from "@/lib/units/time";

/** One item about one subject, with everything that was seen of it. */
export interface Collected {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly owner: Rule | null;
  /** What was taken off no longer speaks, and nothing can be asked about it. */
  readonly here: boolean;
  byProcedure: boolean;
  /** Since when the procedure asks it, where an earlier version did not. */
  askedSince: Instant | null;
  byEvent: boolean;
  sightings: readonly Sighting[];
}

const NOTHING: readonly Sighting[] = [];

/** Most items of a room that nobody has checked yet were never seen: they share one empty list. */
function addSighting(place: Collected, sighting: Sighting): void {
  if (place.sightings === NOTHING) place.sightings = [sighting];
  else (place.sightings as Sighting[]).push(sighting);
}

/**
 * By the place of the item in the list of items. A room has few subjects for an item, so they are found by looking through them
 * rather than by building keys.
 */
export type Collection = (Collected[] | undefined)[];

const PLACE: ReadonlyMap<ItemId, number> = new Map(ITEM_IDS.map((item, place) => [item, place]));
/** A site's own questions come after all others. */
const OWN_PLACE = ITEM_IDS.length;

/** The one place for an item and subject, made when it is first named. */
export function placeOf(collection: Collection, item: ItemId, subject: Subject, evidence: Evidence): Collected {
  const place = PLACE.get(item) ?? OWN_PLACE;
  const ofItem = collection[place] ?? [];
  for (const known of ofItem) if (known.item === item && sameSubject(known.subject, subject)) return known;
  collection[place] = ofItem;
  const here = isHere(subject, evidence);
  const owner = here ? ownerOf(item, subject, evidence) : null;
  const made: Collected = {
    item,
    subject,
    owner,
    here,
    byProcedure: false,
    askedSince: null,
    byEvent: false,
    sightings: NOTHING,
  };
  ofItem.push(made);
  return made;
}

/** What the procedure asks and what was observed, brought together. */
export function collect(evidence: Evidence, checks: ReadonlyMap<string, ReadCheck>): Collection {
  const collection: Collection = new Array(OWN_PLACE + 1).fill(undefined);
  for (const { item, subject, since } of evidence.procedure?.owes ?? []) {
    const place = placeOf(collection, item, subject, evidence);
    place.byProcedure = true;
    if (since !== undefined) place.askedSince = instantOf(since);
  }
  const superseded = supersededIds(evidence.observations);
  for (const observation of evidence.observations) {
    if (superseded?.has(observation.id)) continue;
    if (!PLACE.has(observation.item) && isTakenBack(observation.item, evidence)) continue;
    const place = placeOf(collection, observation.item, observation.subject, evidence);
    if (!place.here) continue;
    const check = observation.check === null ? undefined : checks.get(observation.check);
    const told = asTold(observation, place, evidence);
    addSighting(place, sightingOf(told, check, worthOf(observation, place, evidence)));
  }
  for (const { subject, item, since } of evidence.workstation?.quarantine ?? []) {
    if (item) addSighting(placeOf(collection, item, subject, evidence), quarantineSighting(item, subject, since));
  }
  return collection;
}

/** One function in quarantine fails as if somebody had just found it so, and no look clears it: only its release does. */
function quarantineSighting(item: ItemId, subject: Subject, since: Timestamp): Sighting {
  const observation: Observation = {
    id: `quarantine:${item}:${subject.id}`,
    item,
    subject,
    answer: { kind: "pass", passed: false, note: QUARANTINED },
    verdict: "fail",
    makersVerdict: null,
    observedAt: since,
    known: { source: "server" },
    by: "quarantine",
    role: "biomedical-engineer",
    check: null,
    recordedAt: since,
    supersedes: null,
  };
  return { ...sightingOf(observation, undefined, "fail"), latest: FOR_GOOD };
}

const FOR_GOOD = instant(Number.MAX_SAFE_INTEGER);

function supersededIds(observations: readonly Observation[]): ReadonlySet<string> | null {
  let ids: Set<string> | null = null;
  for (const { supersedes } of observations) {
    if (supersedes !== null) ids = (ids ?? new Set()).add(supersedes);
  }
  return ids;
}

/** The stricter of the maker's own verdict and the site's limit; with no limit of ours, the verdict given at the time. */
function worthOf(observation: Observation, { item, subject, owner }: Collected, place: Evidence): Assessment {
  if (observation.makersVerdict === "fail") return "fail";
  if (owner === null && observation.verdict === "fail") return "fail";
  return assessment(observation.answer, { item, subject, place }, owner);
}

/**
 * What the maker's own test failed although our limit would pass it is told as that: beside a limit its number would contradict
 * itself. The number goes along in the words.
 */
function asTold(observation: Observation, { item, subject, owner }: Collected, place: Evidence): Observation {
  const { answer, makersVerdict } = observation;
  if (makersVerdict !== "fail" || answer.kind === "pass") return observation;
  if (assessment(answer, { item, subject, place }, owner) === "fail") return observation;
  const note = `the maker's own test failed it, ${saidAnswer(answer)}`;
  return { ...observation, answer: { kind: "pass", passed: false, note } };
}
