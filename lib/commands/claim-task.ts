import { taskIsForOthers, taskIsGone } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import { claimTaskReply, claimTaskRequest, giveBackTaskReply, giveBackTaskRequest } from "@/lib/schemas/task";
import { endClaim, insertClaim, openTask } from "@/lib/storage/tasks";
import { timestampOf } from "@/lib/units/time";

/** Takes a task. Two people at once: one gets it, the other is told who has it. */
export const claimTask = command({
  name: "claim-task",
  summary: "Take an open task, so that others see who is on it.",
  schema: claimTaskRequest,
  reply: claimTaskReply,
  locks: ({ key }) => ({ tasks: [key] }),
  load: (tx, input, context) => openTask(tx, context.begun.scope.facilityId, input.key),
  decide: (task, _input, { actor, begun }) => {
    if (!task) return taskIsGone();
    if (task.claim && task.claim.personId !== actor.personId)
      return refused("taken", `${task.claim.name} has this task already. Nothing was changed.`);
    if (task.claim) return refused("already-done", "You have this task already.");
    return taskIsForOthers(task, begun.roles) ?? done(task);
  },
  apply: async (tx, task, _input, context) => {
    const taken = await insertClaim(tx, context.begun.scope.facilityId, {
      id: context.newId(),
      key: task.key,
      personId: context.actor.personId,
      at: context.now,
    });
    if (!taken) return refused("taken", "Somebody took this task in the meantime. Nothing was changed.");
    return {
      reply: { key: task.key, claimedAt: timestampOf(context.now) },
      note: { text: `Took the task “${task.draft.title}”`, data: { key: task.key } },
    };
  },
});

export const giveBackTask = command({
  name: "give-back-task",
  summary: "Give a task back, so that somebody else can take it.",
  schema: giveBackTaskRequest,
  reply: giveBackTaskReply,
  locks: ({ key }) => ({ tasks: [key] }),
  load: (tx, input, context) => openTask(tx, context.begun.scope.facilityId, input.key),
  decide: (task, _input, { actor }) => {
    if (!task) return taskIsGone();
    if (!task.claim) return refused("already-done", "Nobody has this task.");
    if (task.claim.personId !== actor.personId)
      return refused("not-yours", `${task.claim.name} has this task; only they can give it back.`);
    return done(task);
  },
  apply: async (tx, task, _input, context) => {
    await endClaim(tx, context.begun.scope.facilityId, task.key, context.now, "given-back");
    return {
      reply: { key: task.key },
      note: { text: `Gave the task “${task.draft.title}” back`, data: { key: task.key } },
    };
  },
});
