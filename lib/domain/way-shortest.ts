import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { JudgeContext } from "@/lib/domain/judge-context";
import { indexOf } from "@/lib/domain/judge-index";
import type { Finding } from "@/lib/domain/judgement";
import { missingFor } from "@/lib/domain/needs";
import { type Action, actionKey } from "@/lib/domain/way-action";
import { applied } from "@/lib/domain/way-applied";
import { clears, swapWorkstation } from "@/lib/domain/way-clearing";
import type { Scene } from "@/lib/domain/way-makers";
import { instantOf } from "@/lib/units/time";

/** Actions that together make a room ready for its list. */
export interface Way {
  readonly actions: readonly Action[];
  /** One after the other, by one person. */
  readonly minutes: number;
}

/** A longer way than this is no answer: the room needs somebody to go and look. */
const MOST_ACTIONS = 12;

/**
 * The fewest actions that make this room ready for its list, and of equally few the ones that take least time; null when no such
 * way is known, and empty when it is ready already. Swapping the workstation is the last resort: it is offered only where nothing
 * else does it. Each way is proved by applying its actions to the evidence, as if all ended well, and judging again.
 *
 * withSpare what the evidence would be with a real spare in the room, where there is one: what it owes on arrival is then part of
 *           the way; without it the swap brings a checked spare of the same make-up
 * not for   promising that they end well: a recheck may fail, and then there is another way from there
 */
export function shortestWay(evidence: Evidence, withSpare: Evidence | null = null): Way | null {
  return wayWithoutSwap(evidence) ?? wayWithSwap(evidence, withSpare);
}

function wayWithoutSwap(evidence: Evidence): Way | null {
  const best: Best = { way: null };
  search(evidence, [], best);
  return best.way;
}

function wayWithSwap(evidence: Evidence, withSpare: Evidence | null): Way | null {
  const swap = swapWorkstation(sceneOf(evidence));
  const after = withSpare ?? applied(swap, evidence);
  const rest = after === null ? null : wayWithoutSwap(after);
  if (rest === null) return null;
  return { actions: [swap, ...rest.actions], minutes: swap.minutes + rest.minutes };
}

export function sceneOf(evidence: Evidence): Scene {
  return { judgement: judge(evidence), context: new JudgeContext(indexOf(evidence), instantOf(evidence.now)) };
}

/** What keeps the room from its list: not a limit that was allowed and that takes nothing away that is needed. */
export function blockingReasons({ judgement, context }: Scene): Finding[] {
  const list = context.evidence.room?.list ?? null;
  return judgement.reasons.filter(({ severity, allowedUntil, takesAway }) => {
    if (severity !== "limits") return severity === "out" || severity === "stops" || severity === "owed";
    return allowedUntil === null || missingFor(takesAway, list).length > 0;
  });
}

interface Best {
  way: Way | null;
}

const total = (actions: readonly Action[]): number => actions.reduce((sum, { minutes }) => sum + minutes, 0);

const isShorter = (way: Way, than: Way): boolean =>
  way.actions.length < than.actions.length ||
  (way.actions.length === than.actions.length && way.minutes < than.minutes);

/** At least one more action is needed: can that still be shorter than the best way so far? */
const canBeShorter = (actions: number, minutes: number, best: Way | null): boolean =>
  best === null || actions < best.actions.length || (actions === best.actions.length && minutes < best.minutes);

/**
 * Some action of every way must remove the first reason, so it is enough to try those that do. Of two of them, one that takes
 * no longer and removes at least as much is tried alone.
 */
function search(evidence: Evidence, done: readonly Action[], best: Best): void {
  const scene = sceneOf(evidence);
  const blocking = blockingReasons(scene);
  const minutes = total(done);
  if (blocking.length === 0) {
    const way = { actions: done, minutes };
    if (best.way === null || isShorter(way, best.way)) best.way = way;
    return;
  }
  if (done.length >= MOST_ACTIONS || !canBeShorter(done.length + 1, minutes, best.way)) return;
  for (const { action, after } of stepsThrough(blocking, scene, evidence)) search(after, [...done, action], best);
}

interface Step {
  readonly action: Action;
  readonly after: Evidence;
  /** The reasons that are gone after it. */
  readonly removes: ReadonlySet<string>;
  /** Those that are there only since. */
  readonly brings: ReadonlySet<string>;
}

/** What is owed changes its words with every answer and stays one reason; everything else is told apart by its words, too. */
const reasonKey = ({ rule, severity, subject, allowedUntil, text }: Finding): string =>
  [rule, severity, subject.kind, subject.id, allowedUntil === null, severity === "owed" ? "" : text].join("|");

function stepsThrough(blocking: readonly Finding[], scene: Scene, evidence: Evidence): Step[] {
  const keys = new Set(blocking.map(reasonKey));
  const steps = candidates(blocking, scene).flatMap((action) => stepOf(action, evidence, keys));
  const target = blocking[0] === undefined ? "" : reasonKey(blocking[0]);
  return undominated(steps.filter(({ removes }) => removes.has(target)));
}

/** Everything that clears any of these reasons, each action once. */
export function candidates(blocking: readonly Finding[], scene: Scene): Action[] {
  const byKey = new Map<string, Action>();
  for (const reason of blocking) for (const action of clears(reason, scene)) byKey.set(actionKey(action), action);
  return [...byKey.values()];
}

function stepOf(action: Action, evidence: Evidence, keys: ReadonlySet<string>): Step[] {
  const after = applied(action, evidence);
  if (after === null) return [];
  const left = new Set(blockingReasons(sceneOf(after)).map(reasonKey));
  const removes = new Set([...keys].filter((key) => !left.has(key)));
  const brings = new Set([...left].filter((key) => !keys.has(key)));
  return removes.size === 0 ? [] : [{ action, after, removes, brings }];
}

const isSubset = (part: ReadonlySet<string>, whole: ReadonlySet<string>): boolean =>
  [...part].every((one) => whole.has(one));

function undominated(steps: readonly Step[]): Step[] {
  const kept: Step[] = [];
  const sorted = [...steps].sort(
    (left, right) => right.removes.size - left.removes.size || left.action.minutes - right.action.minutes,
  );
  for (const step of sorted) if (!kept.some((other) => dominates(other, step))) kept.push(step);
  return kept;
}

const dominates = (other: Step, step: Step): boolean =>
  other.action.minutes <= step.action.minutes &&
  isSubset(step.removes, other.removes) &&
  isSubset(other.brings, step.brings);
