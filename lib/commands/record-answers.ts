import { answerLines, judgeAnswers } from "@/lib/commands/answers";
import { askedIn, placeName } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { decideTimes, judgeKept, type KeptInput, keptAtHand, keptRows, storeBegun } from "@/lib/commands/kept-answers";
import { renewTrends } from "@/lib/commands/trends";
import { farAnswer, usualsAtHand } from "@/lib/commands/usual";
import { decideRecord } from "@/lib/domain/check/decide";
import { versionOf } from "@/lib/domain/check/model";
import { done, refused } from "@/lib/domain/outcome";
import { saidAnswer } from "@/lib/domain/wording";
import { recordAnswersReply, recordAnswersRequest } from "@/lib/schemas/check";
import { insertObservations } from "@/lib/storage/checks";

/**
 * Records one or more answers of an open check. A failing answer counts at once, a passing one when the check is signed. A device may
 * have kept them for a while, and may have begun the check by itself: then they carry its time, corrected, and their own giver.
 */
export const recordAnswers = command({
  name: "record-answers",
  summary: "Record answers of an open check: evidence at once, never edited, only superseded.",
  schema: recordAnswersRequest,
  reply: recordAnswersReply,
  locks: ({ checkId, kept }) => (kept?.began ? { workstations: [kept.began.workstationId] } : { checks: [checkId] }),
  load: async (tx, input: KeptInput, context, holders) => {
    const atHand = await keptAtHand(tx, input, context, holders);
    return { ...atHand, usuals: await usualsAtHand(tx, input.answers, atHand.holder, context) };
  },
  decide: ({ check, holder, procedure, who, giver, isNew, usuals }, input, context) => {
    if (!giver?.role)
      return refused(
        "invalid",
        "Nobody here with this id may do a check, so these answers have no giver.",
        "kept.personId",
      );
    if (!check || !holder || !procedure)
      return refused("not-found", "There is no such check in your facility.", "checkId");
    if (check.workstationId !== (input.kept?.began?.workstationId ?? check.workstationId))
      return refused("invalid", "This check is of another workstation.", "kept.began.workstationId");
    const open = decideRecord(check, who);
    if (!open.ok) return open;
    const times = decideTimes(input, context);
    if (!times.ok) return times;
    const late = times.value.some(({ known }) => known.source !== "server");
    const asked = askedIn(check, procedure, holder);
    const judged = late ? judgeKept(input.answers, asked, holder.evidence, [giver.role]) : null;
    if (judged?.ok === false) return judged;
    const now = judged ? null : judgeAnswers(input.answers, asked, holder.evidence, context.begun.roles);
    if (now?.ok === false) return now;
    // What was given at the machine a while ago cannot be looked at again: it is asked about on the device, and never refused here.
    const far = late ? null : farAnswer(input.answers, usuals, asked);
    if (far) return far;
    return done({
      check,
      isNew,
      giver: { ...giver, role: giver.role },
      times: times.value,
      judged: judged?.value ?? { answers: now?.value ?? [], unsettled: [] },
      where: placeName(holder),
      roomId: holder.evidence.room?.id ?? check.roomId,
      holder,
    });
  },
  apply: async (tx, { check, isNew, giver, times, judged, where, roomId, holder }, input, context) => {
    const { facilityId } = context.begun.scope;
    if (isNew) await storeBegun(tx, check, times, input.kept, context);
    // What is asked of the room is asked of the one where the workstation stands now; it may have been moved since the check began.
    await insertObservations(tx, facilityId, keptRows(judged, times, check, giver, roomId, context));
    const { answers, unsettled } = judged;
    await renewTrends(tx, facilityId, holder, answers, context.now);
    const version = versionOf(check) + answers.length;
    const failing = answers.filter(({ verdict }) => verdict === "fail").length;
    const whose = giver.id === context.actor.personId ? "" : ` that ${giver.name} gave`;
    return {
      reply: {
        checkId: check.id,
        recorded: answers.map(({ key, verdict }) => ({ key, verdict })),
        version,
        unsettled: [...unsettled],
      },
      note: {
        text: `Recorded ${answers.length === 1 ? "an answer" : `${answers.length} answers`}${whose} in the check of ${where}${failing > 0 ? `, ${failing} failing` : ""}`,
        details: [...answerLines(answers, saidAnswer), ...unsettled.map(({ why }) => why)],
        data: {
          checkId: check.id,
          ...(input.kept ? { givenBy: giver.id, clock: input.kept.clock } : {}),
          answers: answers.map(({ item, subject, answer, verdict }, index) => ({
            item,
            subject,
            answer,
            verdict,
            ...(input.kept ? { givenAt: input.answers[index]?.givenAt ?? null } : {}),
          })),
        },
      },
    };
  },
});
