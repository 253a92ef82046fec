import { taskIsGone } from "@/lib/commands/at-hand";
import { type Context, command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { onDutyFor } from "@/lib/domain/duty/decide";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import {
  decideCannot,
  decideHandOver,
  decidePause,
  decideStart,
  decideTakeOver,
  type Successor,
} from "@/lib/domain/task-work";
import {
  cannotDoTaskReply,
  cannotDoTaskRequest,
  handOverTaskReply,
  handOverTaskRequest,
  pauseTaskReply,
  pauseTaskRequest,
  startTaskReply,
  startTaskRequest,
  takeOverTaskReply,
  takeOverTaskRequest,
} from "@/lib/schemas/work";
import type { Tx } from "@/lib/storage/client";
import { dutyAt, dutyPeople } from "@/lib/storage/duty";
import { insertTaskStep, type TaskStep } from "@/lib/storage/task-steps";
import { endClaim, insertClaim, type OpenTask, openTask } from "@/lib/storage/tasks";
import { timestampOf } from "@/lib/units/time";

const load = (tx: Tx, { key }: { readonly key: string }, { begun }: Context) =>
  openTask(tx, begun.scope.facilityId, key);
const lockTask = ({ key }: { readonly key: string }) => ({ tasks: [key] });
const stateOf = ({ draft, claim, work }: OpenTask) => ({ mayDo: draft.mayDo, claim, work });
const workerOf = ({ actor, begun }: Context) => ({ personId: actor.personId, roles: begun.roles });
const takenMeanwhile = () => refused("taken", "Somebody took this task in the meantime. Nothing was changed.");

const step = (
  tx: Tx,
  { begun, actor, now, newId }: Context,
  said: Pick<TaskStep, "key" | "kind"> & Partial<TaskStep>,
) =>
  insertTaskStep(tx, begun.scope.facilityId, {
    id: newId(),
    personId: actor.personId,
    otherPerson: null,
    reason: null,
    at: now,
    ...said,
  });

const claimFor = (tx: Tx, { begun, now, newId }: Context, key: string, personId: string) =>
  insertClaim(tx, begun.scope.facilityId, { id: newId(), key, personId, at: now });

export const startTask = command({
  name: "start-task",
  summary: "Begin a task, or go on with it after a pause; a free one is taken by this.",
  schema: startTaskRequest,
  reply: startTaskReply,
  locks: lockTask,
  load,
  decide: (task, _input, context) => {
    if (!task) return taskIsGone();
    const start = decideStart(stateOf(task), workerOf(context));
    return start.ok ? done({ task, ...start.value }) : start;
  },
  apply: async (tx, { task, claims }, { key }, context) => {
    if (claims && !(await claimFor(tx, context, key, context.actor.personId))) return takenMeanwhile();
    await step(tx, context, { key, kind: "started" });
    return {
      reply: { key, since: timestampOf(context.now) },
      note: {
        text: `${task.work?.state === "paused" ? "Went on with" : "Began"} the task “${task.draft.title}”`,
        data: { key },
      },
    };
  },
});

export const pauseTask = command({
  name: "pause-task",
  summary: "Pause a task that you have, with the reason; it stays yours.",
  schema: pauseTaskRequest,
  reply: pauseTaskReply,
  locks: lockTask,
  load,
  decide: (task, _input, context) => {
    if (!task) return taskIsGone();
    const pause = decidePause(stateOf(task), workerOf(context));
    return pause.ok ? done(task) : pause;
  },
  apply: async (tx, { draft }, { key, reason }, context) => {
    await step(tx, context, { key, kind: "paused", reason });
    return { reply: { key }, note: { text: `Paused the task “${draft.title}”: ${reason}`, data: { key } } };
  },
});

/** A task with who is on duty, and who is to go on with it when somebody was named. */
async function loadWithDuty(
  tx: Tx,
  { key, toPersonId }: { key: string; toPersonId?: string | undefined },
  context: Context,
) {
  const { begun, now } = context;
  const people = toPersonId === undefined ? [] : await dutyPeople(tx, begun.scope.facilityId, { ids: [toPersonId] });
  return {
    task: await openTask(tx, begun.scope.facilityId, key),
    duty: await dutyAt(tx, begun.scope.facilityId, now, checkDayAt(checkClock(begun), now).date),
    successor:
      people.map(({ id, name, active, roles }): Successor => ({ personId: id, name, active, roles }))[0] ?? null,
  };
}

export const handOverTask = command({
  name: "hand-over-task",
  summary: "Hand a task that you have to somebody on duty who may do it.",
  schema: handOverTaskRequest,
  reply: handOverTaskReply,
  locks: lockTask,
  load: loadWithDuty,
  decide: ({ task, duty, successor }, _input, context) => {
    if (!task) return taskIsGone();
    const to = decideHandOver(stateOf(task), workerOf(context), successor, duty);
    return to.ok ? done({ task, to: to.value }) : to;
  },
  apply: async (tx, { task, to }, { key, note }, context) => {
    await endClaim(tx, context.begun.scope.facilityId, key, context.now, "handed-over");
    if (!(await claimFor(tx, context, key, to.personId))) return takenMeanwhile();
    await step(tx, context, { key, kind: "handed-over", otherPerson: to.personId, reason: note ?? null });
    return {
      reply: { key, to: to.name },
      note: {
        text: `Handed the task “${task.draft.title}” over to ${to.name}`,
        details: note === undefined ? [] : [`Note: ${note}`],
        data: { key, to: to.personId },
      },
    };
  },
});

export const takeOverTask = command({
  name: "take-over-task",
  summary: "Take a task over from whoever has it, with the reason.",
  schema: takeOverTaskRequest,
  reply: takeOverTaskReply,
  locks: lockTask,
  load,
  decide: (task, _input, context) => {
    if (!task) return taskIsGone();
    const taking = decideTakeOver(stateOf(task), workerOf(context));
    return taking.ok ? done({ task, ...taking.value }) : taking;
  },
  apply: async (tx, { task, from, fromId }, { key, reason }, context) => {
    await endClaim(tx, context.begun.scope.facilityId, key, context.now, "taken-over");
    if (!(await claimFor(tx, context, key, context.actor.personId))) return takenMeanwhile();
    await step(tx, context, { key, kind: "taken-over", otherPerson: fromId, reason });
    return {
      reply: { key, from },
      note: { text: `Took the task “${task.draft.title}” over from ${from}: ${reason}`, data: { key, from: fromId } },
    };
  },
});

/** It goes to whoever is named, or back to all, marked with the reason; the charge providers on duty see it among theirs. */
export const cannotDoTask = command({
  name: "cannot-do-task",
  summary: "Say that you cannot do a task, and why; it goes to somebody else.",
  schema: cannotDoTaskRequest,
  reply: cannotDoTaskReply,
  locks: lockTask,
  load: loadWithDuty,
  decide: ({ task, duty, successor }, { toPersonId }, context) => {
    if (!task) return taskIsGone();
    const worker = workerOf(context);
    const to = decideCannot(stateOf(task), worker, toPersonId === undefined ? "nobody" : successor, duty);
    if (!to.ok) return to;
    const others = onDutyFor(duty, task.draft.mayDo).filter(({ personId }) => personId !== worker.personId);
    return done({ task, to: to.value, next: others, told: onDutyFor(duty, ["charge-provider"]) });
  },
  apply: async (tx, { task, to, next, told }, { key, reason }, context) => {
    await endClaim(tx, context.begun.scope.facilityId, key, context.now, "cannot-do");
    await step(tx, context, { key, kind: "cannot-do", otherPerson: to?.personId ?? null, reason });
    if (to && !(await claimFor(tx, context, key, to.personId))) return takenMeanwhile();
    return {
      reply: {
        key,
        to: to?.name ?? null,
        next: next.map(({ name }) => name),
        told: told.map(({ name }) => name),
      },
      note: {
        text: `Could not do the task “${task.draft.title}”: ${reason}`,
        details: [to ? `It goes to ${to.name}.` : "It is open to all again."],
        data: { key, to: to?.personId ?? null, told: told.map(({ personId }) => personId) },
      },
    };
  },
});
