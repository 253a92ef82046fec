import { answerLines, judgeAnswers, observationsOf } from "@/lib/commands/answers";
import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { renewTrends } from "@/lib/commands/trends";
import { done, refused } from "@/lib/domain/outcome";
import { decidePaperTime } from "@/lib/domain/paper";
import { actingRole } from "@/lib/domain/permission";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { saidAnswer } from "@/lib/domain/wording";
import { enterPaperCheckReply, enterPaperCheckRequest } from "@/lib/schemas/downtime";
import { insertCheck, insertObservations } from "@/lib/storage/checks";
import { listPeople } from "@/lib/storage/people";
import { localDate, localTime, timestampOf } from "@/lib/units/time";

/**
 * A check that was done on paper while nothing else worked. The evidence carries who did it and when, and beside it who entered it
 * and when. It is not signed by that: the mark is given by who did the check, and by nobody in their place.
 */
export const enterPaperCheck = command({
  name: "enter-paper-check",
  summary:
    "Enter a check that was done on paper: who did it and when, beside who entered it. Its doer signs it afterwards.",
  schema: enterPaperCheckRequest,
  reply: enterPaperCheckReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: async (tx, input, context, holders) => ({
    holder: await workstationAtHand(input.workstationId, holders),
    doer: (await listPeople(tx, context.begun.scope.facilityId)).find(({ id }) => id === input.doneBy) ?? null,
  }),
  decide: ({ holder, doer }, input, { now, begun }) => {
    if (!holder?.evidence.workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    if (!holder.procedure || !holder.evidence.procedure)
      return refused("not-found", "No daily procedure is in force here, so there is nothing to enter.");
    const role = doer && actingRole(doer.roles, "record-answers");
    if (!doer || !role)
      return refused("invalid", "Nobody here with this id may do a check: choose who did it.", "doneBy");
    const on = { on: localDate(input.on), from: localTime(input.from), to: localTime(input.to) };
    const span = decidePaperTime(on, begun.facility.timeZone, now);
    if (!span.ok) return span;
    const asked = expandProcedure(holder.procedure, holder.evidence);
    const answers = judgeAnswers(input.answers, asked, holder.evidence, doer.roles);
    if (!answers.ok) return answers;
    return done({
      doer: { id: doer.id, name: doer.name, role },
      span: span.value,
      answers: answers.value,
      procedureId: holder.evidence.procedure.id,
      roomId: holder.evidence.room?.id ?? null,
      where: placeName(holder),
      holder,
    });
  },
  apply: async (
    tx,
    { doer, span: { earliest, latest }, answers, procedureId, roomId, where, holder },
    input,
    context,
  ) => {
    const { facilityId } = context.begun.scope;
    const check = { id: context.newId(), workstationId: input.workstationId, roomId, answers: [] };
    await insertCheck(tx, facilityId, {
      ...check,
      procedureId,
      kind: input.kind,
      startedAt: earliest,
      startedBy: doer.id,
      taskKey: null,
    });
    const known = { source: "paper", earliest: timestampOf(earliest), latest: timestampOf(latest) } as const;
    const rows = observationsOf(answers, check, context).map((row) => ({
      ...row,
      observedAt: latest,
      known,
      by: doer.id,
      role: doer.role,
      recordedBy: context.actor.personId,
    }));
    await insertObservations(tx, facilityId, rows);
    await renewTrends(tx, facilityId, holder, answers, context.now);
    const failing = answers.filter(({ verdict }) => verdict === "fail").length;
    return {
      reply: { checkId: check.id, failing, yours: doer.id === context.actor.personId },
      note: {
        text: `Entered from paper the check of ${where} that ${doer.name} did`,
        details: answerLines(answers, saidAnswer),
        data: {
          checkId: check.id,
          workstationId: input.workstationId,
          doneBy: doer.id,
          earliest: known.earliest,
          latest: known.latest,
          answers: answers.map(({ item, subject, answer, verdict }) => ({ item, subject, answer, verdict })),
        },
      },
    };
  },
});
