import { command } from "@/lib/commands/command";
import { draftAtHand, draftMovedOn } from "@/lib/commands/procedure-at-hand";
import { decideDecline } from "@/lib/domain/procedure-change/decide";
import { declineProcedureReply, declineProcedureRequest } from "@/lib/schemas/procedure";
import { moveDraft } from "@/lib/storage/procedure-drafts";

/** Back to its authors with a reason, or taken back by one of them. The text stays as it is, to go on with. */
export const declineProcedure = command({
  name: "decline-procedure",
  summary: "Decline a proposed procedure, or take back an own one, with a reason. Its text goes back to writing.",
  schema: declineProcedureRequest,
  reply: declineProcedureReply,
  locks: () => ({}),
  load: draftAtHand,
  decide: ({ draft }, _input, { actor }) => decideDecline(draft, actor.personId),
  apply: async (tx, { draft, own }, { draftId, reason }, { begun, actor, now }) => {
    const move = { id: draftId, from: "proposed", to: "draft", by: actor.personId, at: now } as const;
    if (!(await moveDraft(tx, begun.scope.facilityId, { ...move, reason, procedureId: null }))) return draftMovedOn();
    return {
      reply: { draftId, outcome: own ? "taken-back" : "declined" },
      note: {
        text: `${own ? "Took back" : "Declined"} “${draft.text.name}”: ${reason}`,
        data: { draftId, kind: draft.kind, reason, authors: draft.authors },
      },
    };
  },
});
