import { command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { useInEmergencyReply, useInEmergencyRequest } from "@/lib/schemas/moves";
import { insertEmergencyUse } from "@/lib/storage/emergencies";
import { insertEvent } from "@/lib/storage/equipment";
import { beginOccupancy } from "@/lib/storage/occupancy";
import { timestampOf } from "@/lib/units/time";

/**
 * A case begins in a room that may not start: nobody should ever need to falsify a check. The room's state stays what it is, who
 * decided and why is on record, and the whole check is owed when the case has ended.
 */
export const useInEmergency = command({
  name: "use-in-emergency",
  summary: "Start a case in a room that may not start, with the reason; a full check is owed afterwards.",
  schema: useInEmergencyRequest,
  reply: useInEmergencyReply,
  locks: ({ roomId }) => ({ rooms: [roomId] }),
  load: async (_tx, { roomId }, _context, holders) =>
    (await holders()).find(({ kind, id }) => kind === "room" && id === roomId) ?? null,
  decide: (holder) => {
    const room = holder?.evidence.room;
    if (!holder || !room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
    if (room.occupancy.state === "in-use")
      return refused("moved-on", `A case is running in ${room.name} already. Nothing was changed.`);
    if (room.occupancy.state === "closed")
      return refused("moved-on", `${room.name} is closed today. Open it first; nothing was changed.`);
    const { state, reasons } = judge(holder.evidence);
    if (state === "ready" || state === "ready-limited")
      return refused(
        "not-allowed",
        `${room.name} may start: start the case as usual, nothing has to be recorded as an emergency.`,
      );
    return done({
      name: room.name,
      workstation: holder.evidence.workstation,
      state,
      why: reasons[0]?.text ?? "something is still owed",
    });
  },
  apply: async (tx, { name, workstation, state, why }, { roomId, reason }, context) => {
    const { facilityId } = context.begun.scope;
    const { now, actor, role } = context;
    const occupancyId = context.newId();
    const begun = await beginOccupancy(tx, facilityId, {
      id: occupancyId,
      roomId,
      state: "in-use",
      by: actor.personId,
      at: now,
      today: checkDayAt(checkClock(context.begun), now).from,
    });
    if (!begun) return refused("moved-on", `${name} was changed in the meantime. Nothing was changed.`);
    const workstationId = workstation?.id ?? null;
    await insertEmergencyUse(tx, facilityId, {
      id: context.newId(),
      occupancyId,
      roomId,
      workstationId,
      reason,
      state,
      why,
      by: actor.personId,
      role,
      at: now,
    });
    if (workstationId !== null)
      await insertEvent(tx, facilityId, {
        id: context.newId(),
        kind: "emergency-use",
        subject: { kind: "workstation", id: workstationId },
        workstationId,
        roomId,
        at: now,
        by: actor.personId,
      });
    return {
      reply: { roomId, at: timestampOf(now) },
      note: {
        text: `Emergency use of ${name}: ${reason}`,
        details: [`The room might not start: ${why}`, "A full check is owed afterwards."],
        data: { roomId, workstationId, state },
      },
    };
  },
});
