import { command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { decideRequest } from "@/lib/domain/vapor-free/decide";
import {
  requestVaporFreeReply,
  requestVaporFreeRequest,
  withdrawVaporFreeReply,
  withdrawVaporFreeRequest,
} from "@/lib/schemas/allowances";
import type { Holder } from "@/lib/storage/evidence";
import { insertVaporFreeRequest, withdrawRequest } from "@/lib/storage/vapor-free";
import { instantOf, timeIn, timestampOf } from "@/lib/units/time";

const roomOf = async (roomId: string, holders: () => Promise<readonly Holder[]>) =>
  (await holders()).find(({ kind, id }) => kind === "room" && id === roomId)?.evidence.room ?? null;

/** A patient at risk is expected in a room: from now on its list needs a vapor-free workstation. No patient is named. */
export const requestVaporFree = command({
  name: "request-vapor-free",
  summary: "Ask for a vapor-free workstation in a room for a time; its list then needs one.",
  schema: requestVaporFreeRequest,
  reply: requestVaporFreeReply,
  locks: ({ roomId }) => ({ rooms: [roomId] }),
  load: (_tx, { roomId }, _context, holders) => roomOf(roomId, holders),
  decide: (room, { neededAt }, { now, begun }) => {
    if (!room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
    const asked = decideRequest(instantOf(neededAt), now);
    return asked.ok
      ? done({ room, neededAt: asked.value, day: checkDayAt(checkClock(begun), asked.value).date })
      : asked;
  },
  apply: async (tx, { room, neededAt, day }, { note }, context) => {
    const requestId = context.newId();
    await insertVaporFreeRequest(tx, context.begun.scope.facilityId, {
      id: requestId,
      roomId: room.id,
      date: day,
      neededAt,
      note: note ?? null,
      by: context.actor.personId,
      at: context.now,
    });
    const when = `${day} ${timeIn(context.begun.facility.timeZone, neededAt)}`;
    return {
      reply: { requestId, neededAt: timestampOf(neededAt) },
      note: {
        text: `Asked for a vapor-free workstation in ${room.name} for ${when}`,
        data: { requestId, roomId: room.id },
      },
    };
  },
});

export const withdrawVaporFree = command({
  name: "withdraw-vapor-free",
  summary: "Withdraw a request for a vapor-free workstation.",
  schema: withdrawVaporFreeRequest,
  reply: withdrawVaporFreeReply,
  locks: ({ roomId }) => ({ rooms: [roomId] }),
  load: (_tx, { roomId }, _context, holders) => roomOf(roomId, holders),
  decide: (room) =>
    room ? done({ room }) : refused("not-found", "There is no room with this id in your facility.", "roomId"),
  apply: async (tx, { room }, { requestId, roomId }, context) => {
    const request = { id: requestId, roomId, by: context.actor.personId, at: context.now };
    if (!(await withdrawRequest(tx, context.begun.scope.facilityId, request)))
      return refused("not-found", "This request is not open: it may have been withdrawn already.", "requestId");
    return {
      reply: { requestId },
      note: { text: `Withdrew the request for a vapor-free workstation in ${room.name}`, data: { requestId, roomId } },
    };
  },
});
