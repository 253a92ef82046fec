import { answerLines, judgeAnswers } from "@/lib/commands/answers";
import { taskIsForOthers, taskIsGone } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { recordSignedRecheck } from "@/lib/commands/signed-recheck";
import { renewTrends } from "@/lib/commands/trends";
import { done, refused } from "@/lib/domain/outcome";
import { taskItems } from "@/lib/domain/procedure/decide";
import { saidAnswer } from "@/lib/domain/wording";
import { finishTaskReply, finishTaskRequest } from "@/lib/schemas/task";
import { closedUnder, endClaim, openTask } from "@/lib/storage/tasks";
import { timestampOf } from "@/lib/units/time";

/** Finishes a task with its evidence. The answers are recorded, signed by who gives them, and judged at once. */
export const finishTask = command({
  name: "finish-task",
  meaning: "performed",
  summary: "Finish a task with the answers it asks for; this signs them.",
  schema: finishTaskRequest,
  reply: finishTaskReply,
  locks: ({ key, workstationId }) => ({ tasks: [key], workstations: workstationId ? [workstationId] : [] }),
  load: async (tx, input, context, holders) => {
    const { facilityId } = context.begun.scope;
    const open = await openTask(tx, facilityId, input.key);
    const places = await holders();
    if (open) {
      const holder = places.find(({ kind, id }) => kind === open.holderKind && id === open.holderId) ?? null;
      return { task: open, holder, open: true };
    }
    const closed = await closedUnder(tx, facilityId, input.key, context.actor.personId);
    const holder = places.find(({ workstationId }) => workstationId === closed?.workstationId) ?? null;
    return { task: closed && { ...closed, claim: null }, holder, open: false };
  },
  decide: ({ task, holder, open }, input, { actor, begun }) => {
    if (!task || !holder) return taskIsGone();
    if (task.draft.kind === "check" || task.draft.kind === "confirm" || task.draft.kind === "allow")
      return refused("invalid", "This task is finished by signing a check, not by single answers.");
    if (task.claim && task.claim.personId !== actor.personId)
      return refused("taken", `${task.claim.name} has this task. Nothing was changed.`);
    const others = taskIsForOthers(task, begun.roles);
    if (others) return others;
    if (!task.workstationId || !holder.procedure)
      return refused("not-found", "There is no workstation behind this task any more.");
    const asked = taskItems(task.draft, holder.procedure, holder.evidence);
    const answers = judgeAnswers(input.answers, asked, holder.evidence, begun.roles);
    if (!answers.ok) return answers;
    const missing = asked.filter(({ key }) => !answers.value.some((answer) => answer.key === key));
    if (missing.length > 0)
      return refused("invalid", `Still to answer: ${missing.map(({ title }) => title).join("; ")}.`, "answers");
    return done({
      task,
      open,
      answers: answers.value,
      workstationId: task.workstationId,
      roomId: holder.evidence.room?.id ?? null,
      procedureId: holder.evidence.procedure?.id ?? null,
      holder,
    });
  },
  apply: async (tx, { task, open, answers, workstationId, roomId, procedureId, holder }, input, context) => {
    const { facilityId } = context.begun.scope;
    const recheck = { workstationId, roomId, procedureId, taskKey: task.key, answers };
    const { checkId, boundTo } = await recordSignedRecheck(tx, recheck, context);
    await renewTrends(tx, facilityId, holder, answers, context.now);
    if (open) await endClaim(tx, facilityId, task.key, context.now, "finished");
    const failing = answers.filter(({ verdict }) => verdict === "fail").length;
    return {
      reply: { key: task.key, checkId, finishedAt: timestampOf(context.now), failing, noLongerNeeded: !open },
      note: {
        text: `${open ? "Finished" : "Recorded, though no longer needed:"} “${task.draft.title}”${failing > 0 ? `, ${failing} failing` : ""}`,
        details: [...answerLines(answers, saidAnswer), ...(input.note ? [`Note: ${input.note}`] : [])],
        data: {
          key: task.key,
          checkId,
          boundTo,
          answers: answers.map(({ item, subject, answer, verdict }) => ({ item, subject, answer, verdict })),
        },
      },
    };
  },
});
