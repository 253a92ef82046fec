import type { Answer } from "@/lib/domain/answer";
import type { WorkstationEvidence } from "@/lib/domain/evidence";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { DAY, type Instant, MINUTE } from "@/lib/units/time";

export interface Preparation {
  readonly method: "flush" | "filters";
  readonly startedAt: Instant;
  readonly endedAt: Instant;
}

/** Asked for at most so far ahead: later than that the list of the day is not known. Common practice, no source. */
export const FURTHEST_AHEAD = 14 * DAY;

/** Is this a time at which somebody can still prepare a workstation? */
export function decideRequest(neededAt: Instant, now: Instant): Outcome<Instant, "invalid"> {
  if (neededAt <= now)
    return refused("invalid", "The time it is needed at has passed: give one that is still to come.", "neededAt");
  if (neededAt > now + FURTHEST_AHEAD)
    return refused("invalid", "That is more than 14 days ahead: ask when the list of that day is known.", "neededAt");
  return done(neededAt);
}

/**
 * What a preparation is worth as an answer, or why it is none.
 *
 * in        the workstation as it stands, what was done from when to when, now, and when the last vaporizer came off (null: not known)
 * out       minutes flushed, or that filters were used; how long it must be is the model's own, and the rule judges it
 * refuses   a mounted vaporizer, times that run backwards or lie ahead, filters on a model that takes none, a flush that its maker
 *           gives no time for, filters used for less than the model asks
 */
export function decidePreparation(
  workstation: WorkstationEvidence,
  { method, startedAt, endedAt }: Preparation,
  now: Instant,
  lastOff: Instant | null,
): Outcome<{ readonly minutes: number; readonly answer: Answer }, "invalid" | "does-not-fit"> {
  const { model, fitted, tag } = workstation;
  const [mounted] = fitted.vaporizers;
  if (mounted)
    return refused("does-not-fit", `Vaporizer ${mounted.tag} is mounted on ${tag}: take it off first, then flush.`);
  if (endedAt > now) return refused("invalid", "It cannot have ended yet: give a time that has passed.", "endedAt");
  if (startedAt >= endedAt) return refused("invalid", "It must have begun before it ended.", "startedAt");
  if (endedAt - startedAt > DAY) return refused("invalid", "More than a day is no preparation.", "startedAt");
  if (lastOff !== null && startedAt < lastOff)
    return refused(
      "invalid",
      "It began while a vaporizer was still mounted: count from when it came off.",
      "startedAt",
    );
  const minutes = Math.floor((endedAt - startedAt) / MINUTE);
  const asked = method === "filters" ? (model.vaporFreeFilterMinutes ?? null) : model.vaporFreeMinutes;
  if (asked === null)
    return refused(
      "does-not-fit",
      method === "filters"
        ? `${model.name} takes no vapor filters: flush it.`
        : `The maker of ${model.name} gives no flush time: use another workstation.`,
      "method",
    );
  if (method === "flush")
    return done({ minutes, answer: { kind: "number", reading: { value: minutes, unit: "min" } } });
  if (minutes < asked)
    return refused(
      "invalid",
      `With filters ${model.name} is flushed ${asked} min; this was ${minutes} min.`,
      "endedAt",
    );
  return done({ minutes, answer: { kind: "choice", choice: "filters" } });
}
