import { answerLines, judgeAnswers, observationsOf } from "@/lib/commands/answers";
import { checkAtHand, placeName } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { decideRecord } from "@/lib/domain/check/decide";
import { versionOf } from "@/lib/domain/check/model";
import { done, refused } from "@/lib/domain/outcome";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { saidAnswer } from "@/lib/domain/wording";
import { recordAnswersReply, recordAnswersRequest } from "@/lib/schemas/check";
import { insertObservations } from "@/lib/storage/checks";

/** Records one or more answers of an open check. A failing answer counts at once, a passing one when the check is signed. */
export const recordAnswers = command({
  name: "record-answers",
  summary: "Record answers of an open check: evidence at once, never edited, only superseded.",
  schema: recordAnswersRequest,
  reply: recordAnswersReply,
  locks: ({ checkId }) => ({ checks: [checkId] }),
  load: checkAtHand,
  decide: ({ check, holder, who }, input) => {
    if (!check || !holder?.procedure)
      return refused("not-found", "There is no such check in your facility.", "checkId");
    const open = decideRecord(check, who);
    if (!open.ok) return open;
    const answers = judgeAnswers(input.answers, expandProcedure(holder.procedure, holder.evidence), holder.evidence);
    return answers.ok
      ? done({
          check,
          answers: answers.value,
          where: placeName(holder),
          roomId: holder.evidence.room?.id ?? check.roomId,
        })
      : answers;
  },
  apply: async (tx, { check, answers, where, roomId }, _input, context) => {
    const { facilityId } = context.begun.scope;
    // What is asked of the room is asked of the one where the workstation stands now; it may have been moved since the check began.
    await insertObservations(tx, facilityId, observationsOf(answers, { ...check, roomId }, context));
    const version = versionOf(check) + answers.length;
    const failing = answers.filter(({ verdict }) => verdict === "fail").length;
    return {
      reply: { checkId: check.id, recorded: answers.map(({ key, verdict }) => ({ key, verdict })), version },
      note: {
        text: `Recorded ${answers.length === 1 ? "an answer" : `${answers.length} answers`} in the check of ${where}${failing > 0 ? `, ${failing} failing` : ""}`,
        details: answerLines(answers, saidAnswer),
        data: {
          checkId: check.id,
          answers: answers.map(({ item, subject, answer, verdict }) => ({ item, subject, answer, verdict })),
        },
      },
    };
  },
});
