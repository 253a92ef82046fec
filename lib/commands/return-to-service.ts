import type { JudgedAnswer } from "@/lib/commands/answers";
import { type Context, command } from "@/lib/commands/command";
import { roomsLeft } from "@/lib/commands/event-rooms";
import { recordSignedRecheck } from "@/lib/commands/signed-recheck";
import { renewTrends } from "@/lib/commands/trends";
import { answerKey } from "@/lib/domain/check/model";
import { eventTask, eventTaskKey, eventTitle, returnAnswers } from "@/lib/domain/event/decide";
import type { RoomReturned } from "@/lib/domain/event/model";
import { itemOf } from "@/lib/domain/items";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { verdictOf } from "@/lib/domain/verdict";
import { saidAnswer } from "@/lib/domain/wording";
import { returnToServiceReply, returnToServiceRequest } from "@/lib/schemas/events";
import type { Tx } from "@/lib/storage/client";
import {
  closeEventTasks,
  departmentEvents,
  endDepartmentEvents,
  putEventTasks,
  type StoredEvent,
} from "@/lib/storage/department-events";
import type { Holder } from "@/lib/storage/evidence";

interface Returning {
  readonly holder: Holder & { readonly workstationId: string };
  readonly answers: readonly JudgedAnswer[];
}

/**
 * Rooms come back after an event, each with its own looks: pressure and gas identity, or mains power. One signature for each room;
 * the event and its task end with the last one.
 */
export const returnToService = command({
  name: "return-to-service",
  meaning: "performed",
  summary:
    "Return rooms to service after an event: pressure and gas identity in each, or mains power; this signs them.",
  schema: returnToServiceRequest,
  reply: returnToServiceReply,
  locks: ({ rooms }) => ({ rooms: rooms.map(({ roomId }) => roomId) }),
  load: async (tx, { eventId }, context, holders) => ({
    event: (await departmentEvents(tx, context.begun.scope.facilityId, { id: eventId }))[0] ?? null,
    holders: await holders(),
  }),
  decide: ({ event, holders }, { rooms }) => {
    if (!event) return refused("not-found", "There is no event with this id in your facility.", "eventId");
    if (event.endedAt !== null) return refused("moved-on", "This event has ended already. Nothing was recorded.");
    if (event.drill || event.kind === "recall")
      return refused("invalid", "A drill and a recall take nothing out of service: end them.", "eventId");
    if (new Set(rooms.map(({ roomId }) => roomId)).size < rooms.length)
      return refused("invalid", "A room is named twice. Give each room once.", "rooms");
    const returning: Returning[] = [];
    for (const [index, given] of rooms.entries()) {
      const one = returningOf(event, given, holders);
      if (!one.ok) return { ...one, field: `rooms.${index}` };
      returning.push(one.value);
    }
    return done({ event, returning });
  },
  apply: async (tx, { event, returning }, _input, context) => {
    for (const one of returning) await recordReturn(tx, event, one, context);
    const left = await roomsLeft(tx, context.begun, event, context.now);
    const ended = left.length === 0;
    await keepTask(tx, event, left.length, context);
    const names = returning.map(({ holder }) => holder.evidence.room?.name ?? "");
    const back = names.filter((name) => !left.includes(name));
    return {
      reply: { eventId: event.id, returned: back, left, ended },
      note: {
        text: `${ended ? "All rooms back" : `Back in service: ${back.join(", ") || "none yet"}`}: ${eventTitle(event)}`,
        details: returning.flatMap(({ holder, answers }) =>
          answers.map(
            ({ title, answer, verdict }) =>
              `${holder.evidence.room?.name}: ${title}: ${saidAnswer(answer)}${verdict === "fail" ? " (fails)" : ""}`,
          ),
        ),
        data: { eventId: event.id, rooms: returning.map(({ holder }) => holder.id), ended },
      },
      wholeBoard: true,
    };
  },
});

function returningOf(
  event: StoredEvent,
  given: RoomReturned,
  holders: readonly Holder[],
): Outcome<Returning, "not-found" | "invalid"> {
  const holder = holders.find(({ kind, id }) => kind === "room" && id === given.roomId);
  if (!holder || !event.rooms.includes(given.roomId))
    return refused("not-found", "This room is not one of those that the event touched.");
  const { workstationId } = holder;
  if (workstationId === null)
    return refused(
      "invalid",
      `No workstation stands in ${holder.evidence.room?.name}: there is nothing to read a gauge on.`,
    );
  const answers = returnAnswers(event, given, holder.evidence);
  if (!answers.ok) return answers;
  const judged = answers.value.map(({ item, subject, answer }) => ({
    item,
    subject,
    answer,
    key: answerKey(item, subject),
    title: itemOf(item).name,
    verdict: verdictOf(answer, { item, subject, place: holder.evidence }),
  }));
  return done({ holder: { ...holder, workstationId }, answers: judged });
}

/** One signature for each room: its looks stand by themselves. */
async function recordReturn(tx: Tx, event: StoredEvent, { holder, answers }: Returning, context: Context) {
  await recordSignedRecheck(
    tx,
    {
      workstationId: holder.workstationId,
      roomId: holder.id,
      procedureId: holder.evidence.procedure?.id ?? null,
      taskKey: eventTaskKey(event.id),
      answers,
    },
    context,
  );
  await renewTrends(tx, context.begun.scope.facilityId, holder, answers, context.now);
}

async function keepTask(tx: Tx, event: StoredEvent, left: number, context: Context): Promise<void> {
  const { facilityId } = context.begun.scope;
  if (left > 0) {
    await putEventTasks(tx, facilityId, [{ eventId: event.id, draft: eventTask(event, left) }], context.now);
    return;
  }
  const ended = { by: context.actor.personId, reason: "Every room is back in service", at: context.now };
  await endDepartmentEvents(tx, facilityId, [event.id], ended);
  await closeEventTasks(tx, facilityId, [eventTaskKey(event.id)], context.now);
}
