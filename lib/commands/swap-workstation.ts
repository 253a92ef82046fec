import { workstationAtHand } from "@/lib/commands/at-hand";
import { type Context, command } from "@/lib/commands/command";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { owedInWords } from "@/lib/domain/owed-words";
import { asIfIn } from "@/lib/domain/spare-choice";
import { owesWholeCheck } from "@/lib/domain/task/decide";
import { decideSwapWorkstation } from "@/lib/domain/workstation/decide";
import type { SwapPlan } from "@/lib/domain/workstation/model";
import { swapWorkstationReply, swapWorkstationRequest } from "@/lib/schemas/moves";
import type { Tx } from "@/lib/storage/client";
import { findStore, insertEvent } from "@/lib/storage/equipment";
import { type Move, moveWorkstations } from "@/lib/storage/placements";
import { timestampOf } from "@/lib/units/time";

interface Input {
  readonly roomId: string;
  readonly outgoingWorkstationId: string | null;
  readonly incomingWorkstationId: string;
}

/** Takes a workstation out of a room and another one in, as one step; what a move makes due again is owed at once. */
export const swapWorkstation = command({
  name: "swap-workstation",
  summary: "Swap the workstation of a room: for a spare from a store, or with that of another room.",
  schema: swapWorkstationRequest,
  reply: swapWorkstationReply,
  locks: ({ roomId, outgoingWorkstationId, incomingWorkstationId }) => ({
    rooms: [roomId],
    workstations: [incomingWorkstationId, ...(outgoingWorkstationId === null ? [] : [outgoingWorkstationId])],
  }),
  load: async (tx, { roomId, incomingWorkstationId, outgoingTo }, context, holders) => ({
    room: (await holders()).find(({ kind, id }) => kind === "room" && id === roomId) ?? null,
    incoming: await workstationAtHand(incomingWorkstationId, holders),
    storeKnown:
      outgoingTo === null ||
      outgoingTo === "exchange" ||
      (await findStore(tx, context.begun.scope.facilityId, outgoingTo.store)) !== null,
  }),
  decide: ({ room, incoming, storeKnown }, input) => {
    const plan = decideSwapWorkstation(room?.evidence ?? null, incoming?.evidence ?? null, {
      outgoing: input.outgoingWorkstationId,
      incoming: input.incomingWorkstationId,
      outgoingTo: input.outgoingTo,
      storeKnown,
      acceptUnchecked: input.acceptUnchecked ?? false,
    });
    if (!plan.ok) return plan;
    // Both are there: the decision looked for them.
    const there = asIfIn(mustBe(room).evidence, mustBe(incoming).evidence, mustBe(incoming).procedure);
    return done({
      ...plan.value,
      there,
      judged: judge(there),
      roomName: mustBe(room).evidence.room?.name ?? "",
      otherRoom: plan.value.exchangedWith === null ? null : (mustBe(incoming).evidence.room?.name ?? ""),
      outgoingTag: mustBe(room).evidence.workstation?.tag ?? null,
      incomingTag: mustBe(incoming).evidence.workstation?.tag ?? "",
    });
  },
  apply: async (tx, decided, input, context) => {
    const { roomName, otherRoom, outgoingTag, incomingTag, judged, there } = decided;
    const moved = await moveWorkstations(
      tx,
      context.begun.scope.facilityId,
      movesOf(decided, input, context),
      context.now,
    );
    if (!moved) return refused("moved-on", `${roomName} was changed in the meantime. Nothing was changed.`);
    await recordMove(tx, context, input.incomingWorkstationId, input.roomId);
    if (decided.exchangedWith !== null && input.outgoingWorkstationId !== null)
      await recordMove(tx, context, input.outgoingWorkstationId, decided.exchangedWith);
    const owed = owedInWords(judged.owed, there.workstation);
    return {
      reply: {
        roomId: input.roomId,
        incomingTag,
        outgoingTag,
        owed,
        recheckTaskKey: owed.length === 0 || owesWholeCheck(judged) ? null : `recheck:${input.incomingWorkstationId}`,
        at: timestampOf(context.now),
      },
      note: {
        text: `Swapped the workstation of ${roomName}: ${outgoingTag === null ? "" : `${outgoingTag} out${otherRoom === null ? "" : ` to ${otherRoom}`}, `}${incomingTag} in`,
        details: owed.map(
          ({ itemName, subjectName }) => `Owed now: ${subjectName ? `${subjectName}: ` : ""}${itemName}`,
        ),
        data: {
          roomId: input.roomId,
          in: input.incomingWorkstationId,
          out: input.outgoingWorkstationId,
          exchangedWith: decided.exchangedWith,
          toStore: decided.toStore,
          acceptUnchecked: input.acceptUnchecked ?? false,
        },
      },
    };
  },
});

const mustBe = <Value>(value: Value | null): Value => {
  if (value === null) throw new Error("a swap was decided without its room or workstation");
  return value;
};

function movesOf({ exchangedWith, toStore }: SwapPlan, input: Input, { newId }: Context): Move[] {
  const incoming: Move = { id: newId(), workstationId: input.incomingWorkstationId, to: { roomId: input.roomId } };
  if (input.outgoingWorkstationId === null) return [incoming];
  const to = exchangedWith === null ? { storeId: mustBe(toStore) } : { roomId: exchangedWith };
  return [{ id: newId(), workstationId: input.outgoingWorkstationId, to }, incoming];
}

const recordMove = (tx: Tx, context: Context, workstationId: string, roomId: string): Promise<void> =>
  insertEvent(tx, context.begun.scope.facilityId, {
    id: context.newId(),
    kind: "moved-in",
    subject: { kind: "workstation", id: workstationId },
    workstationId,
    roomId,
    at: context.now,
    by: context.actor.personId,
  });
