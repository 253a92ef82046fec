import { checkAtHand, placeName } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { shownText } from "@/lib/commands/sign-check";
import { decideConfirm } from "@/lib/domain/check/decide";
import { signedAs } from "@/lib/domain/check/model";
import { checkDayAt } from "@/lib/domain/check-day";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { confirmCheckReply, confirmCheckRequest } from "@/lib/schemas/check";
import { insertSignature } from "@/lib/storage/checks";
import { timestampOf } from "@/lib/units/time";

/** The provider's own mark on what somebody else performed. */
export const confirmCheck = command({
  name: "confirm-check",
  summary: "Add the provider's mark to a signed check of today, once the room may start.",
  schema: confirmCheckRequest,
  reply: confirmCheckReply,
  locks: ({ checkId }) => ({ checks: [checkId] }),
  load: checkAtHand,
  decide: ({ check, holder, who }, input, context) => {
    if (!check || !holder) return refused("not-found", "There is no such check in your facility.", "checkId");
    // Of the check day in which it was signed, as the judge counts it.
    const performedAt = signedAs(check, "performed")?.at ?? check.startedAt;
    const { validUntil } = checkDayAt(checkClock(context.begun), performedAt);
    const confirming = decideConfirm(check, judge(holder.evidence), input.seenVersion, validUntil, context.now, who);
    return confirming.ok ? done({ check, where: placeName(holder) }) : confirming;
  },
  apply: async (tx, { check, where }, _input, context) => {
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
      reply: { checkId: check.id, confirmedAt: timestampOf(context.now) },
      note: {
        text: `Confirmed the check of ${where} as provider`,
        data: { checkId: check.id, meaning: "confirmed", boundTo },
      },
    };
  },
});
