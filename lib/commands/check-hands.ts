import { checkAtHand, placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { type Context, command } from "@/lib/commands/command";
import { decideRecord, decideSelfTest, decideTakeOver } from "@/lib/domain/check/decide";
import { type CarriedAnswer, carryAnswers } from "@/lib/domain/check-correction";
import { itemOf } from "@/lib/domain/items";
import { done, refused } from "@/lib/domain/outcome";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { verdictOf } from "@/lib/domain/verdict";
import {
  correctWorkstationReply,
  correctWorkstationRequest,
  startSelfTestReply,
  startSelfTestRequest,
  takeOverCheckReply,
  takeOverCheckRequest,
} from "@/lib/schemas/work";
import {
  type CarriedRow,
  checkHands,
  insertCorrection,
  insertSelfTestStart,
  insertTakeover,
} from "@/lib/storage/check-hands";
import { insertCheck } from "@/lib/storage/checks";
import type { Holder } from "@/lib/storage/evidence";
import { namesOf } from "@/lib/storage/names";
import { timestampOf } from "@/lib/units/time";

const noCheck = () => refused("not-found", "There is no such check in your facility.", "checkId");

/** Goes on with a check that somebody else began and cannot finish. */
export const takeOverCheck = command({
  name: "take-over-check",
  summary: "Go on with a check that somebody else has begun; every answer keeps its own name.",
  schema: takeOverCheckRequest,
  reply: takeOverCheckReply,
  locks: ({ checkId }) => ({ checks: [checkId] }),
  load: async (tx, input, context, holders) => {
    const { facilityId } = context.begun.scope;
    const at = await checkAtHand(tx, input, context, holders);
    const hands = await checkHands(tx, facilityId, input.checkId);
    const names = await namesOf(tx, hands ? [hands.heldBy] : []);
    return { ...at, hands, heldBy: (hands && names.get(hands.heldBy)) ?? "somebody else" };
  },
  decide: ({ check, holder, who, hands, heldBy }, _input, { actor }) => {
    if (!check || !holder || !hands) return noCheck();
    const taking = decideTakeOver(check, hands.heldBy, actor.personId, who);
    return taking.ok ? done({ check, where: placeName(holder), from: hands.heldBy, heldBy }) : taking;
  },
  apply: async (tx, { check, where, from, heldBy }, { reason }, context) => {
    await insertTakeover(tx, context.begun.scope.facilityId, {
      id: context.newId(),
      checkId: check.id,
      from,
      personId: context.actor.personId,
      reason,
      at: context.now,
    });
    return {
      reply: { checkId: check.id, from: heldBy },
      note: { text: `Took over the check of ${where} from ${heldBy}: ${reason}`, data: { checkId: check.id, from } },
    };
  },
});

/** The workstation's own test runs for minutes while its items cannot be answered; others see since when. */
export const startSelfTest = command({
  name: "start-self-test",
  summary: "Say that the workstation's self-test has been started in a check.",
  schema: startSelfTestRequest,
  reply: startSelfTestReply,
  locks: ({ checkId }) => ({ checks: [checkId] }),
  load: async (tx, input, context, holders) => ({
    ...(await checkAtHand(tx, input, context, holders)),
    hands: await checkHands(tx, context.begun.scope.facilityId, input.checkId),
  }),
  decide: ({ check, holder, who, hands }) => {
    const workstation = holder?.evidence.workstation;
    if (!check || !holder || !workstation || !hands) return noCheck();
    const starting = decideSelfTest(check, workstation.model.selfTestCovers, hands.selfTestSince, who);
    return starting.ok ? done({ check, where: placeName(holder) }) : starting;
  },
  apply: async (tx, { check, where }, _input, context) => {
    await insertSelfTestStart(tx, context.begun.scope.facilityId, {
      id: context.newId(),
      checkId: check.id,
      by: context.actor.personId,
      at: context.now,
    });
    return {
      reply: { checkId: check.id, since: timestampOf(context.now) },
      note: { text: `Started the self-test of ${where}`, data: { checkId: check.id } },
    };
  },
});

/** A check opened on the wrong workstation: what was seen is recorded again where it was seen, and no longer counts where it was not. */
export const correctWorkstation = command({
  name: "correct-workstation",
  summary: "Move a check to the workstation that was really looked at; the old answers stay readable.",
  schema: correctWorkstationRequest,
  reply: correctWorkstationReply,
  locks: ({ checkId, workstationId }) => ({ checks: [checkId], workstations: [workstationId] }),
  load: async (tx, input, context, holders) => ({
    ...(await checkAtHand(tx, input, context, holders)),
    right: await workstationAtHand(input.workstationId, holders),
  }),
  decide: ({ check, holder, right, procedure, who }, { workstationId }) => {
    if (!check || !holder) return noCheck();
    if (!right?.evidence.workstation || !procedure)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    if (check.workstationId === workstationId)
      return refused("invalid", `This check is of ${right.evidence.workstation.tag} already.`, "workstationId");
    if (check.kind !== "daily" && check.kind !== "first-user")
      return refused("invalid", "Only a full check is moved; answer a single item again where it belongs.", "checkId");
    // A signed one is moved, too: its signature stood for something that nobody had looked at.
    const open = decideRecord({ ...check, signatures: [] }, who);
    if (!open.ok) return open;
    if (check.answers.length === 0)
      return refused("invalid", "Nothing has been answered yet; open the check on the right workstation.", "checkId");
    const correction = carryAnswers(
      check.answers,
      holder.evidence,
      right.evidence,
      expandProcedure(procedure, right.evidence, check.shortened),
    );
    return done({ check, right, from: placeName(holder), to: placeName(right), ...correction });
  },
  apply: async (tx, { check, right, from, to, carried, dropped }, { workstationId, reason }, context) => {
    const { facilityId } = context.begun.scope;
    const id = context.newId();
    await insertCheck(tx, facilityId, {
      id,
      procedureId: check.procedureId,
      shortened: check.shortened ?? false,
      kind: check.kind,
      workstationId,
      roomId: right.evidence.room?.id ?? null,
      startedAt: check.startedAt,
      startedBy: context.actor.personId,
      taskKey: null,
    });
    const corrected = await insertCorrection(tx, facilityId, {
      id: context.newId(),
      checkId: check.id,
      rightCheckId: id,
      reason,
      by: context.actor.personId,
      at: context.now,
      rows: carried.map((one) => rowOf(one, workstationId, right, context)),
    });
    if (!corrected) return refused("moved-on", "This check was corrected in the meantime. Nothing was changed.");
    return {
      reply: { checkId: id, carried: carried.length, dropped: [...dropped] },
      note: {
        text: `Moved the check of ${from} to ${to}, where it was done: ${reason}`,
        details: dropped.map(
          ({ itemName, subjectName, why }) =>
            `Not carried: ${subjectName ? `${subjectName}: ` : ""}${itemName}, ${why}`,
        ),
        data: { checkId: check.id, rightCheckId: id, workstationId, carried: carried.length },
      },
    };
  },
});

function rowOf({ given, subject }: CarriedAnswer, workstationId: string, right: Holder, context: Context): CarriedRow {
  const byRoom = itemOf(given.item).about === "room";
  return {
    id: context.newId(),
    of: given.id,
    item: given.item,
    subject,
    workstationId: byRoom ? null : workstationId,
    roomId: byRoom ? (right.evidence.room?.id ?? null) : null,
    verdict: verdictOf(given.answer, { item: given.item, subject, place: right.evidence }),
  };
}
