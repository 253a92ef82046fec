import type { Evidence, Observation } from "@/lib/domain/evidence";
import { type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import { isHere } from "@/lib/domain/judge-here";
import { type Sighting, sightingOf } from "@/lib/domain/judge-sightings";
import type { ReadCheck } from "@/lib/domain/judge-signatures";
import type { Assessment, Rule } from "@/lib/domain/rule";
import { assessment, ownerOf } from "@/lib/domain/rules/assess";

/** One item about one subject, with everything that was seen of it. */
export interface Collected {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly owner: Rule | null;
  /** What was taken off no longer speaks, and nothing can be asked about it. */
  readonly here: boolean;
  byProcedure: boolean;
  byEvent: boolean;
  readonly sightings: Sighting[];
}

/** A room has few subjects for an item, so they are found by looking through them rather than by building keys. */
export type Collection = Map<ItemId, Collected[]>;

/** The one place for an item and subject, made when it is first named. */
export function placeOf(collection: Collection, item: ItemId, subject: Subject, evidence: Evidence): Collected {
  let ofItem = collection.get(item);
  if (ofItem === undefined) {
    ofItem = [];
    collection.set(item, ofItem);
  }
  for (const known of ofItem) if (sameSubject(known.subject, subject)) return known;
  const here = isHere(subject, evidence);
  const owner = here ? ownerOf(item, subject, evidence) : null;
  const made: Collected = { item, subject, owner, here, byProcedure: false, byEvent: false, sightings: [] };
  ofItem.push(made);
  return made;
}

/** What the procedure asks and what was observed, brought together. */
export function collect(evidence: Evidence, checks: ReadonlyMap<string, ReadCheck>): Collection {
  const collection: Collection = new Map();
  for (const { item, subject } of evidence.procedure?.owes ?? []) {
    placeOf(collection, item, subject, evidence).byProcedure = true;
  }
  const superseded = supersededIds(evidence.observations);
  for (const observation of evidence.observations) {
    if (superseded?.has(observation.id)) continue;
    const place = placeOf(collection, observation.item, observation.subject, evidence);
    if (!place.here) continue;
    const check = observation.check === null ? undefined : checks.get(observation.check);
    place.sightings.push(sightingOf(observation, check, worthOf(observation, place, evidence)));
  }
  return collection;
}

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
