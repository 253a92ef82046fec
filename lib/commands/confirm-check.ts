import { askedIn, checkAtHand, placeName } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { shownText } from "@/lib/commands/sign-check";
import { decideConfirm } from "@/lib/domain/check/decide";
import { answerKey, signedAs } from "@/lib/domain/check/model";
import { checkDayAt } from "@/lib/domain/check-day";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { delegated } from "@/lib/domain/who-answers";
import { confirmCheckReply, confirmCheckRequest } from "@/lib/schemas/check";
import { insertSignature } from "@/lib/storage/checks";
import { timestampOf } from "@/lib/units/time";

/** The provider's own mark on what somebody else performed. */
export const confirmCheck = command({
  name: "confirm-check",
  meaning: "confirmed",
  summary: "Add the provider's mark to a signed check of today, once the room may start.",
  schema: confirmCheckRequest,
  reply: confirmCheckReply,
  locks: ({ checkId }) => ({ checks: [checkId] }),
  load: checkAtHand,
  decide: ({ check, holder, procedure, who }, input, context) => {
    if (!check || !holder) return refused("not-found", "There is no such check in your facility.", "checkId");
    // Of the check day in which it was signed, as the judge counts it.
    const performedAt = signedAs(check, "performed")?.at ?? check.startedAt;
    const { validUntil } = checkDayAt(checkClock(context.begun), performedAt);
    const confirming = decideConfirm(check, judge(holder.evidence), input.seenVersion, validUntil, context.now, who);
    if (!confirming.ok) return confirming;
    const asked = procedure ? askedIn(check, procedure, holder) : [];
    const [other] = delegated(asked, lastAnswerer(holder.evidence), context.actor.personId);
    if (other)
      return refused("not-allowed", `${other.title}: it is not delegated. Answer it yourself, then confirm the check.`);
    return done({ check, where: placeName(holder), twice: asked.filter(({ by }) => by === "both") });
  },
  apply: async (tx, { check, where, twice }, _input, context) => {
    const boundTo = context.digest(shownText(check));
    const signed = await insertSignature(tx, context.begun.scope.facilityId, {
      id: context.newId(),
      checkId: check.id,
      personId: context.actor.personId,
      role: context.role,
      meaning: "confirmed",
      at: context.now,
      boundTo,
    });
    if (!signed) return refused("already-done", "This check was confirmed in the meantime. Nothing was changed.");
    return {
      shown: shownText(check),
      reply: { checkId: check.id, confirmedAt: timestampOf(context.now) },
      note: {
        text: `Confirmed the check of ${where} as provider`,
        details: twice.map(({ title }) => `Second look: ${title}`),
        data: { checkId: check.id, meaning: "confirmed", boundTo },
      },
    };
  },
});

/** Who gave the last answer to a question, in whichever check. Observations are in the order in which they were made. */
function lastAnswerer({ observations }: Evidence): (key: string) => string | null {
  const last = new Map(observations.map(({ item, subject, by }) => [answerKey(item, subject), by]));
  return (key) => last.get(key) ?? null;
}
