import { command } from "@/lib/commands/command";
import { draftAtHand, draftMovedOn } from "@/lib/commands/procedure-at-hand";
import { checkDayAt } from "@/lib/domain/check-day";
import { itemOf } from "@/lib/domain/items";
import { done } from "@/lib/domain/outcome";
import { decideApprove, inForceFrom, removedItems } from "@/lib/domain/procedure-change/decide";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { approveProcedureReply, approveProcedureRequest } from "@/lib/schemas/procedure";
import { moveDraft } from "@/lib/storage/procedure-drafts";
import { insertProcedure } from "@/lib/storage/procedures";
import { timestampOf } from "@/lib/units/time";

/** The second person of two: the draft becomes a version, in force from its day, and never edited again. */
export const approveProcedure = command({
  name: "approve-procedure",
  meaning: "approved",
  summary: "Approve a procedure that others wrote: in force from its day, for every check that is begun from then on.",
  schema: approveProcedureRequest,
  reply: approveProcedureReply,
  locks: () => ({ settings: true, everything: true }),
  load: draftAtHand,
  decide: ({ draft, newest }, { revision }, { begun, now, actor }) => {
    const clock = checkClock(begun);
    const day = checkDayAt(clock, now);
    const approving = decideApprove(draft, revision, newest, day, clock, actor.personId);
    if (!approving.ok) return approving;
    const from = inForceFrom(approving.value.inForceOn, clock, now);
    const removed = removedItems(newest?.text ?? null, approving.value.text).map((item) => itemOf(item).name);
    return done({ draft: approving.value, from, removed, version: (newest?.version ?? 0) + 1 });
  },
  apply: async (tx, { draft, from, removed, version }, { draftId }, context) => {
    const { facilityId } = context.begun.scope;
    const { now, actor } = context;
    const procedureId = context.newId();
    const procedure = { id: procedureId, version, kind: draft.kind, ...draft.text };
    await insertProcedure(tx, facilityId, procedureId, procedure, from, draftId);
    const move = { id: draftId, from: "proposed", to: "approved", by: actor.personId, at: now, procedureId } as const;
    if (!(await moveDraft(tx, facilityId, { ...move, reason: null }))) return draftMovedOn();
    return {
      // What the approver reads: the text, the day, the reason and who wrote it.
      shown: JSON.stringify([draftId, draft.revision, draft.text, draft.inForceOn, draft.reason, draft.authors]),
      reply: { draftId, procedureId, version, inForceFrom: timestampOf(from) },
      note: {
        text: `Approved “${draft.text.name}”, version ${version}, in force from ${draft.inForceOn}`,
        details: [
          `Because: ${draft.reason}`,
          ...(removed.length === 0 ? [] : [`No longer asked: ${removed.join(", ")}`]),
        ],
        data: {
          draftId,
          procedureId,
          kind: draft.kind,
          version,
          inForceFrom: timestampOf(from),
          authors: draft.authors,
          approver: actor.personId,
          text: draft.text,
        },
      },
      wholeBoard: true,
    };
  },
});
