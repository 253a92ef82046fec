import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { recordSignedRecheck } from "@/lib/commands/signed-recheck";
import { answerKey } from "@/lib/domain/check/model";
import type { Subject } from "@/lib/domain/items";
import { done, refused } from "@/lib/domain/outcome";
import { decidePreparation } from "@/lib/domain/vapor-free/decide";
import { verdictOf } from "@/lib/domain/verdict";
import { prepareVaporFreeReply, prepareVaporFreeRequest } from "@/lib/schemas/allowances";
import { lastVaporizerOff } from "@/lib/storage/vapor-free";
import { instantOf } from "@/lib/units/time";

/** A prepared state: by the model's flush time or with filters. It ends when a vaporizer is mounted, and with its check day. */
export const prepareVaporFree = command({
  name: "prepare-vapor-free",
  meaning: "performed",
  summary: "Record that a workstation was prepared vapor-free, from when to when and how; this signs it.",
  schema: prepareVaporFreeRequest,
  reply: prepareVaporFreeReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: async (tx, { workstationId }, context, holders) => ({
    holder: await workstationAtHand(workstationId, holders),
    lastOff: await lastVaporizerOff(tx, context.begun.scope.facilityId, workstationId),
  }),
  decide: ({ holder, lastOff }, { method, startedAt, endedAt }, { now }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    const preparation = { method, startedAt: instantOf(startedAt), endedAt: instantOf(endedAt) };
    const decided = decidePreparation(workstation, preparation, now, lastOff);
    return decided.ok ? done({ ...decided.value, holder }) : decided;
  },
  apply: async (tx, { minutes, answer, holder }, { workstationId, method, startedAt, endedAt }, context) => {
    const subject: Subject = { kind: "workstation", id: workstationId };
    const about = { item: "vapor-free", subject } as const;
    const verdict = verdictOf(answer, { ...about, place: holder.evidence });
    const judged = {
      ...about,
      answer,
      verdict,
      key: answerKey("vapor-free", subject),
      title: "Vapor-free preparation",
    };
    const { checkId } = await recordSignedRecheck(
      tx,
      {
        workstationId,
        roomId: holder.evidence.room?.id ?? null,
        procedureId: holder.evidence.procedure?.id ?? null,
        taskKey: null,
        answers: [judged],
        shown: (id) => [id, answer, startedAt, endedAt],
      },
      context,
    );
    const how = method === "flush" ? `flushed ${minutes} min` : `filters, flushed ${minutes} min`;
    return {
      reply: { workstationId, minutes, checkId },
      note: {
        text: `Prepared ${placeName(holder)} vapor-free: ${how}${verdict === "fail" ? ", too short" : ""}`,
        data: { workstationId, method, startedAt, endedAt, minutes, verdict },
      },
    };
  },
});
