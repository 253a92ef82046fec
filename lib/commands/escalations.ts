import { askPerson } from "@/lib/commands/ask-person";
import { taskIsGone } from "@/lib/commands/at-hand";
import { type Context, command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import { escalation } from "@/lib/domain/rules/policy/escalation";
import { valuesOf } from "@/lib/domain/rules/settings";
import {
  answerEscalationReply,
  answerEscalationRequest,
  escalateTaskReply,
  escalateTaskRequest,
  passOnEscalationReply,
  passOnEscalationRequest,
} from "@/lib/schemas/messages";
import { reachablePeople } from "@/lib/storage/channels";
import type { Tx } from "@/lib/storage/client";
import {
  answerEscalation,
  type EscalationRecord,
  endEscalation,
  escalationById,
  escalationsOfOpenTasks,
} from "@/lib/storage/escalations";
import { openTask } from "@/lib/storage/tasks";
import { later, MINUTE, timestampOf } from "@/lib/units/time";

interface Asked {
  readonly taskKey: string;
  readonly personId: string;
  readonly reason: string;
}

/** By whoever gives the command. Null when somebody is asked about this task already. */
async function ask(tx: Tx, asked: Asked, { begun, actor, now, newId }: Context) {
  const until = later(now, valuesOf(escalation, begun).answerWithin.value * MINUTE);
  const one = { id: newId(), ...asked, by: actor.personId, at: now, answerBy: until };
  if (!(await askPerson(tx, begun.scope.facilityId, one, newId))) return null;
  return { escalationId: one.id, answerBy: timestampOf(until) };
}

const isAskedAlready = () =>
  refused("taken", "Somebody was asked about this task in the meantime. Nothing was changed.");

async function personNamed(tx: Tx, { begun }: Context, personId: string) {
  return (await reachablePeople(tx, begun.scope.facilityId)).find(({ id }) => id === personId) ?? null;
}

const nobodyHere = () =>
  refused("not-found", "Nobody with this id has a role in your facility. Ask somebody who is here.", "personId");

export const escalateTask = command({
  name: "escalate-task",
  summary: "Ask one person to see to a task that cannot be done in time, and tell them by the ways they chose.",
  schema: escalateTaskRequest,
  reply: escalateTaskReply,
  locks: ({ key }) => ({ tasks: [key] }),
  load: async (tx, { key, personId }, context) => {
    const { facilityId } = context.begun.scope;
    return {
      task: await openTask(tx, facilityId, key),
      person: await personNamed(tx, context, personId),
      asked: (await escalationsOfOpenTasks(tx, facilityId)).find((one) => one.taskKey === key && one.outcome === null),
    };
  },
  decide: ({ task, person, asked }, { personId }, { actor }) => {
    if (!task) return taskIsGone();
    if (!person) return nobodyHere();
    if (personId === actor.personId)
      return refused("invalid", "You are that person. Claim the task, or ask somebody else.", "personId");
    if (asked) return refused("taken", `${asked.name} is asked already. They can pass it on.`);
    return done({ task, person });
  },
  apply: async (tx, { task, person }, { reason }, context) => {
    const said = `${task.draft.title}. ${reason}`;
    const asked = await ask(tx, { taskKey: task.key, personId: person.id, reason: said }, context);
    if (!asked) return isAskedAlready();
    return {
      reply: { ...asked, name: person.name },
      note: {
        text: `Asked ${person.name} to see to “${task.draft.title}”`,
        details: [reason],
        data: { key: task.key, personId: person.id, escalationId: asked.escalationId },
      },
      wholeBoard: true,
    };
  },
});

/** Only who was asked answers, and only while it is open. */
function mine(found: EscalationRecord | null, { actor }: Context) {
  if (!found) return refused("not-found", "There is no such request in your facility.", "escalationId");
  if (found.personId !== actor.personId)
    return refused("not-yours", `${found.name} was asked; only they can answer. Nothing was changed.`);
  if (found.outcome !== null)
    return refused("moved-on", "This is over already: it was done, passed on, or asked of somebody else.");
  return done(found);
}

export const acknowledgeEscalation = command({
  name: "acknowledge-escalation",
  summary: "Say that you have it: nobody else is asked then.",
  schema: answerEscalationRequest,
  reply: answerEscalationReply,
  locks: () => ({}),
  load: (tx, { escalationId }, { begun }) => escalationById(tx, begun.scope.facilityId, escalationId),
  decide: (found, _input, context) => {
    const own = mine(found, context);
    if (!own.ok) return own;
    return own.value.answered ? refused("already-done", "You have answered this already.") : own;
  },
  apply: async (tx, { id, reason, taskKey }, _input, context) => {
    await answerEscalation(tx, context.begun.scope.facilityId, id, context.now);
    return {
      reply: { escalationId: id, answeredAt: timestampOf(context.now) },
      note: { text: "Has it: answered what was asked", details: [reason], data: { escalationId: id, key: taskKey } },
      wholeBoard: true,
    };
  },
});

export const passOnEscalation = command({
  name: "pass-on-escalation",
  summary: "Pass what you were asked on to somebody else, who is asked in your place.",
  schema: passOnEscalationRequest,
  reply: passOnEscalationReply,
  locks: () => ({}),
  load: async (tx, { escalationId, personId }, context) => ({
    found: await escalationById(tx, context.begun.scope.facilityId, escalationId),
    person: await personNamed(tx, context, personId),
  }),
  decide: ({ found, person }, { personId }, context) => {
    const own = mine(found, context);
    if (!own.ok) return own;
    if (!person) return nobodyHere();
    if (personId === context.actor.personId)
      return refused("invalid", "You are that person. Choose somebody else.", "personId");
    return done({ found: own.value, person });
  },
  apply: async (tx, { found, person }, { note }, context) => {
    await endEscalation(tx, context.begun.scope.facilityId, found.id, "passed-on", context.now);
    const reason = note === undefined ? found.reason : `${found.reason}. ${context.actor.name}: ${note}`;
    const asked = await ask(tx, { taskKey: found.taskKey, personId: person.id, reason }, context);
    if (!asked) return isAskedAlready();
    return {
      reply: { ...asked, name: person.name },
      note: {
        text: `Passed on to ${person.name} what was asked`,
        details: [reason],
        data: { escalationId: found.id, next: asked.escalationId, key: found.taskKey, personId: person.id },
      },
      wholeBoard: true,
    };
  },
});
