import type { Observation } from "@/lib/domain/evidence";
import { byText, isSigned, type ReadCheck } from "@/lib/domain/judge-signatures";
import type { Assessment } from "@/lib/domain/rule";
import { type Instant, instantOf } from "@/lib/units/time";

/** One observation with the span of time in which it was made: a moment, or an interval for a paper record and for a device whose clock was turned. */
export interface Sighting {
  readonly observation: Observation;
  readonly earliest: Instant;
  readonly latest: Instant;
  readonly recorded: Instant;
  readonly assessment: Assessment;
  readonly signed: boolean;
  readonly fromFullCheck: boolean;
}

/** What all sightings of one item and subject come to, before the clock is asked. */
export interface Decided {
  readonly failing: Sighting | null;
  readonly pass: Sighting | null;
  /** The last failing answer that the passing one cleared. */
  readonly cleared: Sighting | null;
  /** The newest look proved nothing, as a gauge read with its valve shut. */
  readonly uncounted: boolean;
}

export const NOTHING_SEEN: Decided = { failing: null, pass: null, cleared: null, uncounted: false };

export function sightingOf(observation: Observation, check: ReadCheck | undefined, assessment: Assessment): Sighting {
  const { known, observedAt, recordedAt } = observation;
  const at = instantOf(observedAt);
  const recorded = recordedAt === observedAt ? at : instantOf(recordedAt);
  return {
    observation,
    earliest: known.source !== "server" && known.earliest ? instantOf(known.earliest) : at,
    latest: known.source !== "server" && known.latest ? instantOf(known.latest) : at,
    recorded,
    assessment,
    signed: isSigned(observation, recorded, check),
    fromFullCheck: check?.full ?? false,
  };
}

/**
 * A failing answer counts at once and stands until a signed passing answer that was certainly given after it.
 * The order in which the evidence lists its observations does not matter.
 */
export function decide(sightings: readonly Sighting[], passClears: boolean): Decided {
  let pass: Sighting | null = null;
  let newest: Sighting | null = null;
  for (const sighting of sightings) {
    if (sighting.signed && passes(sighting) && (pass === null || isLater(sighting, pass, "earliest"))) pass = sighting;
    if (newest === null || isLater(sighting, newest, "latest")) newest = sighting;
  }
  let failing: Sighting | null = null;
  let cleared: Sighting | null = null;
  for (const sighting of sightings) {
    if (sighting.assessment !== "fail") continue;
    if (passClears && pass !== null && clears(pass, sighting)) {
      if (cleared === null || isLater(sighting, cleared, "latest")) cleared = sighting;
    } else if (failing === null || isLater(sighting, failing, "latest")) failing = sighting;
  }
  return { failing, pass, cleared, uncounted: newest?.assessment === "uncounted" };
}

const passes = ({ assessment }: Sighting): boolean => assessment === "pass" || assessment === "remark";

/** Certainly later: where two looks may have happened in either order, the failing one stands. */
function clears(pass: Sighting, failed: Sighting): boolean {
  if (pass.earliest !== failed.latest) return pass.earliest > failed.latest;
  return pass.recorded > failed.recorded;
}

function isLater(left: Sighting, right: Sighting, by: "earliest" | "latest"): boolean {
  const difference = left[by] - right[by] || left.recorded - right.recorded;
  return difference === 0 ? byText(left.observation.id, right.observation.id) < 0 : difference > 0;
}
