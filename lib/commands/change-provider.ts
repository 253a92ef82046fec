import { command } from "@/lib/commands/command";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { changeProviderReply, changeProviderRequest } from "@/lib/schemas/moves";
import { insertCheck, insertSignature } from "@/lib/storage/checks";
import { timestampOf } from "@/lib/units/time";

/** Who takes over a case says in ten seconds whether they looked at the equipment. It moves no state; it is on record either way. */
export const changeProvider = command({
  name: "change-provider",
  meaning: "confirmed",
  summary: "Take over a running case: confirm the equipment, or say that you could not look at it.",
  schema: changeProviderRequest,
  reply: changeProviderReply,
  locks: ({ roomId }) => ({ rooms: [roomId] }),
  load: async (_tx, { roomId }, _context, holders) =>
    (await holders()).find(({ kind, id }) => kind === "room" && id === roomId) ?? null,
  decide: (holder) => {
    const room = holder?.evidence.room;
    if (!holder || !room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
    if (room.occupancy.state !== "in-use")
      return refused("moved-on", `No case is running in ${room.name}. Before a case the check itself is confirmed.`);
    const { workstation } = holder.evidence;
    if (!workstation) return refused("not-found", `There is no workstation in ${room.name} to take over.`);
    return done({ room, workstation, judgement: judge(holder.evidence) });
  },
  apply: async (tx, { room, workstation, judgement }, { roomId, confirmed, note }, context) => {
    const { facilityId } = context.begun.scope;
    const { now, actor, role } = context;
    const checkId = context.newId();
    await insertCheck(tx, facilityId, {
      id: checkId,
      procedureId: null,
      kind: "provider-change",
      workstationId: workstation.id,
      roomId,
      startedAt: now,
      startedBy: actor.personId,
      taskKey: null,
    });
    // What stood there is what the signature is bound to: the state and every reason for it.
    const shown = [checkId, workstation.id, judgement.state, judgement.reasons.map(({ rule, text }) => [rule, text])];
    const boundTo = context.digest(JSON.stringify(shown));
    if (confirmed)
      await insertSignature(tx, facilityId, {
        id: context.newId(),
        checkId,
        personId: actor.personId,
        role,
        meaning: "confirmed",
        at: now,
        boundTo,
      });
    return {
      reply: { roomId, checkId, at: timestampOf(now) },
      note: {
        text: `Took over in ${room.name}, equipment ${confirmed ? "confirmed" : "not confirmed"}`,
        details: note === undefined ? [] : [`Note: ${note}`],
        data: { roomId, checkId, confirmed, ...(confirmed ? { boundTo } : {}) },
      },
    };
  },
});
