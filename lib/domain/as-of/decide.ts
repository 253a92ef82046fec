import type { Judgement } from "@/lib/domain/judgement";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { type Instant, instantOf } from "@/lib/units/time";

/** Is it a moment that can be looked back at? */
export function decideMoment(at: Instant, now: Instant, begins: Instant): Outcome<Instant, "invalid"> {
  if (at > now) return refused("invalid", "This moment is still to come: only the past can be looked back at.", "at");
  if (at < begins) return refused("invalid", "Nothing was on record yet at this moment.", "at");
  return done(at);
}

/**
 * Did the stored answer still stand at that moment? The clock may have overtaken it, and at the turn of the check day the list is
 * another one; every reader then judged for himself.
 */
export const stillStood = (judgement: Pick<Judgement, "goodUntil">, dayEnds: Instant, at: Instant): boolean =>
  at < dayEnds && (judgement.goodUntil === null || at < instantOf(judgement.goodUntil));

/** What of two answers about one room differs, by name; empty when they say the same. Times at which they would turn are left out. */
export function differences(logged: Judgement, replayed: Judgement): readonly string[] {
  const parts = ["state", "marks", "reasons", "limits", "owed", "readyForList", "whenInUse"] as const;
  return parts.filter((part) => !isSame(logged[part], replayed[part]));
}

/** Equal as data: stored JSON does not keep the order of keys. */
function isSame(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const keys = Object.keys(one);
  if (keys.length !== Object.keys(other).length) return false;
  return keys.every((key) => isSame((one as Record<string, unknown>)[key], (other as Record<string, unknown>)[key]));
}
