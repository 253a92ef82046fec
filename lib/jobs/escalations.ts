import { randomUUID } from "node:crypto";
import { askPerson } from "@/lib/commands/ask-person";
import { checkDayAt } from "@/lib/domain/check-day";
import { escalate } from "@/lib/domain/escalation/decide";
import type { Reachable, WatchedTask } from "@/lib/domain/escalation/model";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { escalation } from "@/lib/domain/rules/policy/escalation";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { Role } from "@/lib/domain/vocabulary";
import { tasksIn } from "@/lib/queries/tasks";
import type { TaskView } from "@/lib/schemas/task";
import { reachablePeople } from "@/lib/storage/channels";
import { openCheckRecords } from "@/lib/storage/check-hands";
import type { Database, Scope, Tx } from "@/lib/storage/client";
import { dutyAt } from "@/lib/storage/duty";
import { endEscalation, escalationsOfOpenTasks } from "@/lib/storage/escalations";
import { type Frame, facilityFrame } from "@/lib/storage/facility-frame";
import { notifyClockChange } from "@/lib/storage/places";
import { facilityScopes } from "@/lib/storage/sessions";
import { type Instant, instantOf, MINUTE } from "@/lib/units/time";

const NOBODY = "00000000-0000-0000-0000-000000000000";

/** Longer than a whole check takes. Own choice, no source. */
const IN_HAND = 60 * MINUTE;

export interface Watching {
  readonly database: Database;
  readonly now: () => Instant;
}

/** Puts to one person what nobody has and what cannot wait, in every facility. Returns how many were asked. */
export async function escalateDue({ database, now }: Watching): Promise<number> {
  let asked = 0;
  for (const scope of await facilityScopes(database))
    asked += await database.inScope(scope, (tx) => escalateIn(tx, scope, now()));
  return asked;
}

async function escalateIn(tx: Tx, scope: Scope, now: Instant): Promise<number> {
  const { facilityId } = scope;
  // Two instances look at the same minute: the second one sees what the first has asked.
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`escalations:${facilityId}`}, 0))::text AS locked`;
  const frame = await facilityFrame(tx, scope);
  const tasks = await watchedTasks(tx, frame, now);
  const before = await escalationsOfOpenTasks(tx, facilityId);
  const { ended, asked } = escalate(tasks, before, await peopleHere(tx, frame, now), now, limitsOf(frame));
  for (const { id, outcome } of ended) await endEscalation(tx, facilityId, id, outcome, now);
  let told = 0;
  for (const one of asked)
    if (await askPerson(tx, facilityId, { ...one, id: randomUUID(), by: null, at: now }, randomUUID)) told += 1;
  if (told + ended.length > 0) await notifyClockChange(tx, facilityId, "all");
  return told;
}

function limitsOf(frame: Frame) {
  const { beforeDecideBy, afterCouldNot, answerWithin } = valuesOf(escalation, frame);
  return {
    beforeDecideByMinutes: beforeDecideBy.value,
    afterCouldNotMinutes: afterCouldNot.value,
    answerWithinMinutes: answerWithin.value,
  };
}

async function watchedTasks(tx: Tx, frame: Frame, now: Instant): Promise<WatchedTask[]> {
  const today = checkDayAt(checkClock(frame), now);
  const open = await openCheckRecords(tx, frame.scope.facilityId, today.from, null);
  // One that was begun long ago and never signed is in nobody's hands any more.
  const recent = open.filter(({ startedAt }) => now - instantOf(startedAt) < IN_HAND);
  const checking = new Set(recent.map(({ workstation }) => workstation.id));
  return (await tasksIn(tx, frame, now, NOBODY)).map((task) => watchedOf(task, checking));
}

/** Somebody who is in the middle of a check has it, whether or not they took the task first. */
function watchedOf(task: TaskView, checking: ReadonlySet<string>): WatchedTask {
  const { key, title, kind, why, severity, minutes, mayDo, claim, workstation, room, plannedFor } = task;
  const last = task.couldNot.at(-1);
  return {
    key,
    title,
    place: room?.name ?? workstation?.tag ?? null,
    severity,
    minutes,
    mayDo,
    claimed: claim !== null || (kind === "check" && workstation !== null && checking.has(workstation.id)),
    plannedInTime: plannedFor !== null && plannedFor.lateMinutes === 0,
    readyBy: task.readyBy === null ? null : instantOf(task.readyBy),
    couldNot: last ? { name: last.name, reason: last.reason, at: instantOf(last.at) } : null,
    faultLate: task.rule === "fault-reported" && why.includes("not looked at within"),
  };
}

async function peopleHere(tx: Tx, frame: Frame, now: Instant): Promise<Reachable[]> {
  const { facilityId } = frame.scope;
  const { people } = await dutyAt(tx, facilityId, now, checkDayAt(checkClock(frame), now).date);
  const onDuty = new Set(people.map(({ personId }) => personId));
  return (await reachablePeople(tx, facilityId)).map(({ id, name, roles, hasChannel }) => ({
    id,
    name,
    roles: roles as Role[],
    hasChannel,
    onDuty: onDuty.has(id),
  }));
}
