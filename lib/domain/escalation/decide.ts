import type { AskedPerson, Asking, Escalated, Limits, Reachable, WatchedTask } from "@/lib/domain/escalation/model";
import { BLOCKS } from "@/lib/domain/plan-cost";
import type { Role } from "@/lib/domain/vocabulary";
import { numeral } from "@/lib/domain/wording";
import { type Instant, later, MINUTE } from "@/lib/units/time";

/**
 * Who is to be asked now, and which earlier askings are over. One person at a time: first who is on duty and nearest to the decision, then,
 * when no answer comes in time, the next. What somebody has taken, or what is done, is nobody's to be asked about. Minutes; pure.
 */
export function escalate(
  tasks: readonly WatchedTask[],
  before: readonly AskedPerson[],
  people: readonly Reachable[],
  now: Instant,
  limits: Limits,
): Escalated {
  const ended: Escalated["ended"][number][] = [];
  const asked: Asking[] = [];
  const byKey = new Map(tasks.map((task) => [task.key, task]));
  for (const one of before.filter(({ outcome }) => outcome === null)) {
    const task = byKey.get(one.taskKey);
    if (!task || task.claimed) ended.push({ id: one.id, outcome: "over" });
    else if (!one.answered && one.answerBy <= now) ended.push({ id: one.id, outcome: "unanswered" });
  }
  const over = new Set(ended.map(({ id }) => id));
  const load = new Map<string, number>();
  const more = (personId: string) => load.set(personId, (load.get(personId) ?? 0) + 1);
  for (const { id, personId, outcome } of before) if (outcome === null && !over.has(id)) more(personId);
  for (const task of mostUrgentFirst(tasks)) {
    const next = nextFor(task, before, ended, people, now, limits);
    // Who is asked about everything at once sees to nothing: the rest waits until there is an answer.
    if (!next || (load.get(next.personId) ?? 0) >= MOST_AT_ONCE) continue;
    more(next.personId);
    asked.push(next);
  }
  return { ended, asked };
}

/** Own choice, no source. */
const MOST_AT_ONCE = 5;

const mostUrgentFirst = (tasks: readonly WatchedTask[]): WatchedTask[] =>
  [...tasks].sort(
    (left, right) =>
      (left.readyBy ?? Number.MAX_SAFE_INTEGER) - (right.readyBy ?? Number.MAX_SAFE_INTEGER) ||
      (left.key < right.key ? -1 : 1),
  );

function nextFor(
  task: WatchedTask,
  before: readonly AskedPerson[],
  ended: Escalated["ended"],
  people: readonly Reachable[],
  now: Instant,
  limits: Limits,
): Asking | null {
  if (task.claimed) return null;
  const earlier = sinceTaken(before.filter(({ taskKey }) => taskKey === task.key));
  const open = earlier.find(({ outcome }) => outcome === null);
  const unanswered = ended.some(({ id, outcome }) => id === open?.id && outcome === "unanswered");
  if (open && !unanswered) return null;
  // Who was asked already is not asked again; the next one may have had to wait until they were free.
  const why = earlier.length > 0 ? "No answer so far" : whyNow(task, now, limits);
  if (why === null) return null;
  const person = nextPerson(task.mayDo, people, new Set(earlier.map(({ personId }) => personId)));
  if (!person) return null;
  const where = task.place ? `${task.place}: ` : "";
  return {
    taskKey: task.key,
    personId: person.id,
    reason: `${where}${task.title}. ${why}`,
    answerBy: later(now, limits.answerWithinMinutes * MINUTE),
  };
}

/** What was asked before somebody took the work, and gave it back since, is another story: it may be asked about anew. */
function sinceTaken(earlier: readonly AskedPerson[]): readonly AskedPerson[] {
  const taken = Math.max(...earlier.filter(({ outcome }) => outcome === "over").map(({ at }) => at));
  return earlier.filter(({ at, outcome }) => outcome !== "over" && at > taken);
}

/** The reason in a sentence; null while there is none. */
export function whyNow(
  { severity, minutes, readyBy, couldNot, faultLate, plannedInTime }: WatchedTask,
  now: Instant,
  { beforeDecideByMinutes, afterCouldNotMinutes }: Limits,
): string | null {
  if (faultLate) return "Reported, and not looked at in its time";
  if (couldNot && now - couldNot.at >= afterCouldNotMinutes * MINUTE)
    return `${couldNot.name} could not: ${couldNot.reason}`;
  if (plannedInTime || readyBy === null || !BLOCKS.has(severity)) return null;
  const spare = Math.floor((readyBy - now) / MINUTE) - minutes;
  if (spare > beforeDecideByMinutes) return null;
  return spare < 0
    ? `Nobody has it, and the first case is ${numeral(-spare)} min late by now`
    : `Nobody has it, and in ${numeral(spare)} min the first case is late`;
}

/** Who decides about such work, nearest first. Common practice, no source. */
const TO_ENGINEERING: readonly Role[] = ["biomedical-engineer", "charge-provider", "manager"];
const TO_CHARGE: readonly Role[] = ["charge-provider", "manager", "administrator"];

export const askedRoles = (mayDo: readonly Role[]): readonly Role[] =>
  mayDo.includes("biomedical-engineer") && !mayDo.includes("technician") ? TO_ENGINEERING : TO_CHARGE;

/** On duty before not, reachable before not, by the order of the roles; the name settles the rest, so that it is the same every time. */
export function nextPerson(
  mayDo: readonly Role[],
  people: readonly Reachable[],
  askedAlready: ReadonlySet<string>,
): Reachable | null {
  const roles = askedRoles(mayDo);
  const rankOf = ({ roles: own, onDuty, hasChannel }: Reachable) => [
    Math.min(...roles.map((role, place) => (own.includes(role) ? place : roles.length))),
    onDuty ? 0 : 1,
    hasChannel ? 0 : 1,
  ];
  const able = people
    .filter(({ id, roles: own }) => !askedAlready.has(id) && own.some((role) => roles.includes(role)))
    .map((person) => ({ person, rank: rankOf(person) }))
    .sort((left, right) => compared(left.rank, right.rank) || (left.person.name < right.person.name ? -1 : 1));
  return able[0]?.person ?? null;
}

function compared(left: readonly number[], right: readonly number[]): number {
  const place = left.findIndex((value, index) => value !== right[index]);
  return place < 0 ? 0 : (left[place] ?? 0) - (right[place] ?? 0);
}
