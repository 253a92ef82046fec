import { askedIn, checkAtHand, placeName } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { decideSign } from "@/lib/domain/check/decide";
import { standingAnswers } from "@/lib/domain/check/model";
import { done, refused } from "@/lib/domain/outcome";
import { delegated } from "@/lib/domain/who-answers";
import { signCheckReply, signCheckRequest } from "@/lib/schemas/check";
import { type CheckRecord, dropDraft, insertSignature } from "@/lib/storage/checks";
import { timestampOf } from "@/lib/units/time";

/** What a signature is bound to: the check and every answer that stood, in a fixed order. */
export function shownText(check: CheckRecord): string {
  const answers = [...standingAnswers(check.answers).entries()].sort(([left], [right]) => (left < right ? -1 : 1));
  return JSON.stringify([check.id, ...answers.map(([key, { id, answer, verdict }]) => [key, id, answer, verdict])]);
}

/** The equipment mark: "I performed this check", with failures in it too. */
export const signCheck = command({
  name: "sign-check",
  meaning: "performed",
  summary: "Sign a check as performed; its passing answers count from now on.",
  schema: signCheckRequest,
  reply: signCheckReply,
  locks: ({ checkId }) => ({ checks: [checkId] }),
  load: checkAtHand,
  decide: ({ check, holder, procedure, who }, input, { actor, role }) => {
    if (!check || !holder || !procedure)
      return refused("not-found", "There is no such check in your facility.", "checkId");
    const asked = askedIn(check, procedure, holder);
    const answered = standingAnswers(check.answers);
    const [other] = delegated(asked, (key) => answered.get(key)?.by ?? null, actor.personId);
    if (other && role !== "technician" && role !== "biomedical-engineer")
      return refused("not-allowed", `${other.title}: it is not delegated. Answer it yourself, then sign.`);
    const keys = asked.map(({ key }) => key);
    const signing = decideSign(check, keys, input.seenVersion, who);
    return signing.ok ? done({ ...signing.value, check, where: placeName(holder) }) : signing;
  },
  apply: async (tx, { check, where, failing, unanswered }, _input, context) => {
    const { facilityId } = context.begun.scope;
    const boundTo = context.digest(shownText(check));
    const signed = await insertSignature(tx, facilityId, {
      id: context.newId(),
      checkId: check.id,
      personId: context.actor.personId,
      role: context.role,
      meaning: "performed",
      at: context.now,
      boundTo,
    });
    if (!signed) return refused("already-done", "This check was signed in the meantime. Nothing was changed.");
    await dropDraft(tx, facilityId, check.id);
    const remarks = [failing > 0 ? `${failing} failing` : "", unanswered > 0 ? `${unanswered} not answered` : ""]
      .filter(Boolean)
      .join(", ");
    return {
      shown: shownText(check),
      reply: { checkId: check.id, signedAt: timestampOf(context.now), failing, unanswered },
      note: {
        text: `Signed the check of ${where} as performed${remarks ? ` (${remarks})` : ""}`,
        data: { checkId: check.id, meaning: "performed", boundTo, failing, unanswered },
      },
    };
  },
});
