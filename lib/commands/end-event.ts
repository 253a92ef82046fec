import { command } from "@/lib/commands/command";
import { eventTaskKey, eventTitle, stillOwed } from "@/lib/domain/event/decide";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { endEventReply, endEventRequest } from "@/lib/schemas/events";
import { closeEventTasks, departmentEvents, endDepartmentEvents } from "@/lib/storage/department-events";
import { timestampOf } from "@/lib/units/time";

/** A drill and a recall end by a word; a lost pipeline or power only once every room has shown that it is back. */
export const endEvent = command({
  name: "end-event",
  summary: "End a drill or a recall with a reason; a real pipeline or power event ends when every room is back.",
  schema: endEventRequest,
  reply: endEventReply,
  locks: () => ({ everything: true }),
  load: async (tx, { eventId }, context, holders) => ({
    event: (await departmentEvents(tx, context.begun.scope.facilityId, { id: eventId }))[0] ?? null,
    holders: await holders(),
  }),
  decide: ({ event, holders }) => {
    if (!event) return refused("not-found", "There is no event with this id in your facility.", "eventId");
    if (event.endedAt !== null) return refused("already-done", "This event has ended already. Nothing was changed.");
    const left = event.drill
      ? []
      : holders.filter(
          ({ id, evidence }) => event.rooms.includes(id) && stillOwed(event, evidence, judge(evidence)).length > 0,
        );
    if (left.length > 0)
      return refused(
        "not-allowed",
        `Still to return to service: ${event.rooms.flatMap((room) => left.filter(({ id }) => id === room).map(({ evidence }) => evidence.room?.name)).join(", ")}. A real event ends when every room has shown that it is back.`,
      );
    return done({ event });
  },
  apply: async (tx, { event }, { reason }, context) => {
    const { facilityId } = context.begun.scope;
    const ended = { by: context.actor.personId, reason, at: context.now };
    if (!(await endDepartmentEvents(tx, facilityId, [event.id], ended)))
      return refused("already-done", "This event was ended in the meantime. Nothing was changed.");
    await closeEventTasks(tx, facilityId, [eventTaskKey(event.id)], context.now);
    return {
      reply: { eventId: event.id, endedAt: timestampOf(context.now) },
      note: { text: `Ended: ${eventTitle(event)}. ${reason}`, data: { eventId: event.id, drill: event.drill } },
      wholeBoard: true,
    };
  },
});
