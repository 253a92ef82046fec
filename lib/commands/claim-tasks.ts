import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import { decideClaim } from "@/lib/domain/task-work";
import { claimTasksReply, claimTasksRequest } from "@/lib/schemas/work";
import { insertClaim, type OpenTask, openTasks } from "@/lib/storage/tasks";

/** Several tasks for one walk. Each is taken or left by itself; a whole batch is not lost because somebody was faster with one. */
export const claimTasks = command({
  name: "claim-tasks",
  summary: "Take several open tasks at once, for one walk; those that cannot be taken are named.",
  schema: claimTasksRequest,
  reply: claimTasksReply,
  locks: ({ keys }) => ({ tasks: keys }),
  load: async (tx, { keys }, { begun }) =>
    new Map(
      (await openTasks(tx, begun.scope.facilityId))
        .filter(({ key }) => keys.includes(key))
        .map((task) => [task.key, task]),
    ),
  decide: (tasks, { keys }, { actor, begun }) => {
    const free: OpenTask[] = [];
    const left: { key: string; why: string }[] = [];
    for (const key of new Set(keys)) {
      const task = tasks.get(key);
      const claim = decideClaim(task ? { mayDo: task.draft.mayDo, claim: task.claim, work: task.work } : null, {
        personId: actor.personId,
        roles: begun.roles,
      });
      if (claim.ok && task) free.push(task);
      else left.push({ key, why: claim.ok ? "" : claim.message });
    }
    if (free.length > 0) return done({ free, left });
    return refused("taken", `None of these tasks could be taken: ${left[0]?.why ?? ""}`, "keys");
  },
  apply: async (tx, { free, left }, _input, context) => {
    const claimed: string[] = [];
    const late: { key: string; why: string }[] = [];
    for (const { key } of free) {
      const claim = { id: context.newId(), key, personId: context.actor.personId, at: context.now };
      if (await insertClaim(tx, context.begun.scope.facilityId, claim)) claimed.push(key);
      else late.push({ key, why: "Somebody took this task in the meantime." });
    }
    if (claimed.length === 0)
      return refused("taken", "Somebody took these tasks in the meantime. Nothing was changed.", "keys");
    return {
      reply: { claimed, left: [...left, ...late] },
      note: {
        text: `Took ${claimed.length === 1 ? "a task" : `${claimed.length} tasks`} for one walk`,
        details: free.filter(({ key }) => claimed.includes(key)).map(({ draft }) => draft.title),
        data: { keys: claimed },
      },
    };
  },
});
