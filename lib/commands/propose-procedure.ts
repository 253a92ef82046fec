import { command } from "@/lib/commands/command";
import { draftAtHand, draftMovedOn, newestOf } from "@/lib/commands/procedure-at-hand";
import { checkDayAt } from "@/lib/domain/check-day";
import { done, refused } from "@/lib/domain/outcome";
import { decidePropose, decideSave } from "@/lib/domain/procedure-change/decide";
import type { ProcedureText } from "@/lib/domain/procedure-change/model";
import { readyMade } from "@/lib/domain/ready-made-procedures/all";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import {
  draftProcedureReply,
  draftProcedureRequest,
  dropProcedureReply,
  dropProcedureRequest,
  proposeProcedureReply,
  proposeProcedureRequest,
  saveProcedureReply,
  saveProcedureRequest,
} from "@/lib/schemas/procedure";
import { insertDraft, markProposed, moveDraft, procedureDrafts, saveDraftText } from "@/lib/storage/procedure-drafts";
import { localDate } from "@/lib/units/time";

const textOf = ({ name, citation, items }: ProcedureText): ProcedureText => ({ name, citation, items });

/** Begins the next version of a kind of check, from the newest one or from a ready-made one. */
export const draftProcedure = command({
  name: "draft-procedure",
  summary: "Begin a draft of the next version of a kind of check, from the newest one or from a ready-made one.",
  schema: draftProcedureRequest,
  reply: draftProcedureReply,
  locks: () => ({}),
  load: async (tx, { kind }, { begun }) => {
    const { facilityId } = begun.scope;
    const [open] = await procedureDrafts(tx, facilityId, { openOf: kind });
    return { open: open ?? null, newest: await newestOf(tx, facilityId, kind) };
  },
  decide: ({ open, newest }, { kind, from }) => {
    if (open) return refused("taken", `${open.savedByName} has a draft of this open already. Go on with that one.`);
    const shipped = from === null ? null : readyMade(from);
    if (from !== null && shipped?.kind !== kind)
      return refused(
        "not-found",
        `There is no ready-made procedure "${from}" of this kind. Choose one of the list.`,
        "from",
      );
    const text = shipped ?? newest?.text;
    return text
      ? done({ text: textOf(text), baseId: newest?.id ?? null })
      : refused("not-found", "There is no version to begin from. Choose a ready-made procedure.", "from");
  },
  apply: async (tx, { text, baseId }, { kind, from }, { begun, actor, now, newId }) => {
    const id = newId();
    if (!(await insertDraft(tx, begun.scope.facilityId, { id, kind, text, baseId, by: actor.personId, at: now })))
      return refused("taken", "Somebody else began a draft of this in the meantime. Go on with that one.");
    return {
      reply: { draftId: id, revision: 0 },
      note: { text: `Began a draft of “${text.name}”`, data: { draftId: id, kind, from, baseId } },
    };
  },
});

/** Saves a draft. It is in force for nobody yet. */
export const saveProcedure = command({
  name: "save-procedure",
  summary: "Save a draft of a procedure over the revision that was seen.",
  schema: saveProcedureRequest,
  reply: saveProcedureReply,
  locks: () => ({}),
  load: draftAtHand,
  decide: ({ draft }, { revision, text }) => decideSave(draft, revision, text),
  apply: async (tx, draft, { draftId, revision, text }, { begun, actor, now }) => {
    const save = { id: draftId, revision, text, by: actor.personId, at: now };
    if (!(await saveDraftText(tx, begun.scope.facilityId, save))) return draftMovedOn();
    return {
      reply: { draftId, revision: revision + 1 },
      note: {
        text: `Saved the draft of “${text.name}”`,
        data: { draftId, kind: draft.kind, revision: revision + 1, text },
      },
    };
  },
});

/** Sends a draft to its second person. */
export const proposeProcedure = command({
  name: "propose-procedure",
  summary: "Propose a draft of a procedure, in force from a day, for somebody else to approve.",
  schema: proposeProcedureRequest,
  reply: proposeProcedureReply,
  locks: () => ({}),
  load: draftAtHand,
  decide: ({ draft, newest }, { revision, inForceOn }, { begun, now }) => {
    const clock = checkClock(begun);
    return decidePropose(draft, revision, newest, localDate(inForceOn), checkDayAt(clock, now), clock);
  },
  apply: async (tx, draft, { draftId, revision, inForceOn, reason }, { begun, actor, now }) => {
    const proposal = { id: draftId, revision, inForceOn: localDate(inForceOn), reason, by: actor.personId, at: now };
    if (!(await markProposed(tx, begun.scope.facilityId, proposal))) return draftMovedOn();
    return {
      reply: { draftId, inForceOn },
      note: {
        text: `Proposed “${draft.text.name}”, in force from ${inForceOn}`,
        details: [`Because: ${reason}`],
        data: { draftId, kind: draft.kind, revision, inForceOn, reason },
      },
    };
  },
});

/** Gives a draft up, so that another one of its kind can be begun. Its text stays in the record. */
export const dropProcedure = command({
  name: "drop-procedure",
  summary: "Give up a draft of a procedure that nobody has proposed.",
  schema: dropProcedureRequest,
  reply: dropProcedureReply,
  locks: () => ({}),
  load: draftAtHand,
  decide: ({ draft }, { revision }) => {
    if (!draft) return refused("not-found", "There is no draft with this id in your facility.", "draftId");
    if (draft.state !== "draft")
      return refused("already-done", `This draft is ${draft.state}: it is not given up.`, "draftId");
    return draft.revision === revision ? done(draft) : draftMovedOn();
  },
  apply: async (tx, draft, { draftId }, { begun, actor, now }) => {
    const move = { id: draftId, from: "draft", to: "dropped", by: actor.personId, at: now } as const;
    if (!(await moveDraft(tx, begun.scope.facilityId, { ...move, reason: null, procedureId: null })))
      return draftMovedOn();
    return {
      reply: { draftId },
      note: { text: `Gave up the draft of “${draft.text.name}”`, data: { draftId, kind: draft.kind } },
    };
  },
});
