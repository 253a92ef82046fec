import { type Context, command } from "@/lib/commands/command";
import {
  effectOn,
  eventTask,
  eventTaskKey,
  eventTitle,
  isPipeline,
  raisedProblem,
  touches,
} from "@/lib/domain/event/decide";
import type { DepartmentEvent, RoomEffect } from "@/lib/domain/event/model";
import { itemOf } from "@/lib/domain/items";
import { done, refused } from "@/lib/domain/outcome";
import { raiseEventReply, raiseEventRequest } from "@/lib/schemas/events";
import { insertObservations, type NewObservation } from "@/lib/storage/checks";
import type { Tx } from "@/lib/storage/client";
import {
  closeEventTasks,
  departmentEvents,
  endDepartmentEvents,
  eventPlaces,
  insertDepartmentEvent,
  insertRoomEvents,
  putEventTasks,
  roomsTouched,
  type StoredEvent,
} from "@/lib/storage/department-events";
import type { Holder } from "@/lib/storage/evidence";
import { timestampOf } from "@/lib/units/time";

interface Touched {
  readonly holder: Holder;
  readonly effect: RoomEffect | null;
}

/** One cause for many rooms is said once: each room it touches then knows what it has to look at again. */
export const raiseEvent = command({
  name: "raise-event",
  summary:
    "Raise an event of a zone or a model, real or as a drill: one line and one task for all the rooms it touches.",
  schema: raiseEventRequest,
  reply: raiseEventReply,
  // A zone's rooms are known only once it is read; an event is rare, so it waits for everybody.
  locks: () => ({ everything: true }),
  load: async (tx, input, context, holders) => {
    const { facilityId } = context.begun.scope;
    return {
      places: await eventPlaces(tx, facilityId),
      rooms: new Set(await roomsTouched(tx, facilityId, input)),
      open: await departmentEvents(tx, facilityId, {}),
      holders: await holders(),
    };
  },
  decide: ({ places, rooms, open, holders }, input, context) => {
    const problem = raisedProblem(input, context.begun);
    if (problem) return refused("invalid", problem.message, problem.field);
    const zone = places.zones.find(({ id }) => id === input.zoneId) ?? null;
    const model = places.models.find(({ id }) => id === input.modelId) ?? null;
    if (input.zoneId !== undefined && !zone)
      return refused("not-found", "There is no zone with this id in your facility.", "zoneId");
    if (input.modelId !== undefined && !model)
      return refused("not-found", "There is no model with this id among your workstations.", "modelId");
    const here = holders.filter(({ kind, evidence }) => kind === "room" && touches(input, evidence));
    // In walking order, as they were found.
    const touched = [...rooms].flatMap((id) => here.filter((holder) => holder.id === id));
    if (touched.length === 0)
      return refused(
        "invalid",
        `No room of ${zone?.name ?? model?.name} is touched by this.`,
        input.gas ? "gas" : "zoneId",
      );
    const same = open.find((event) => isSame(event, input));
    if (same) return refused("already-done", `“${eventTitle(same)}” is open already. Nothing was raised twice.`);
    return done({
      event: eventOf(input, zone, model, touched, context),
      touched: touched.map((holder): Touched => ({ holder, effect: effectOn(input, holder.evidence) })),
      over: open.filter((one) => isOver(one, input)),
    });
  },
  apply: async (tx, { event, touched, over }, _input, context) => {
    const { facilityId } = context.begun.scope;
    if (over.length > 0) await endOthers(tx, over, context);
    await insertDepartmentEvent(tx, facilityId, event);
    if (event.zone) await recordEffects(tx, event.zone.id, touched, context);
    await putEventTasks(tx, facilityId, [{ eventId: event.id, draft: eventTask(event, touched.length) }], context.now);
    return {
      reply: { eventId: event.id, taskKey: eventTaskKey(event.id), rooms: touched.length, at: timestampOf(event.at) },
      note: {
        text: `Raised: ${eventTitle(event)}`,
        details: [
          `Rooms: ${touched.map(({ holder }) => holder.evidence.room?.name ?? "").join(", ")}`,
          ...(event.note ? [`Note: ${event.note}`] : []),
        ],
        data: { eventId: event.id, kind: event.kind, drill: event.drill, rooms: [...event.rooms] },
      },
      wholeBoard: true,
    };
  },
});

type Input = (typeof raiseEventRequest)["_output"];
type Place = { readonly id: string; readonly name: string } | null;

const isSame = (event: StoredEvent, { kind, zoneId, modelId, gas, drill }: Input): boolean =>
  event.kind === kind &&
  event.drill === drill &&
  (event.zone?.id ?? undefined) === zoneId &&
  (event.model?.id ?? undefined) === modelId &&
  (event.gas ?? undefined) === gas;

/** What is said of a pipeline takes the place of what was said of it before: low, then high, then restored. */
const isOver = (event: StoredEvent, { kind, zoneId, gas, drill }: Input): boolean =>
  isPipeline(kind) && isPipeline(event.kind) && event.drill === drill && event.zone?.id === zoneId && event.gas === gas;

function eventOf(
  input: Input,
  zone: Place,
  model: Place,
  touched: readonly Holder[],
  context: Context,
): DepartmentEvent {
  return {
    id: context.newId(),
    kind: input.kind,
    zone: zone && { id: zone.id, name: zone.name },
    model: model && { id: model.id, name: model.name },
    gas: input.gas ?? null,
    reading: input.reading ?? null,
    drill: input.drill,
    note: input.note ?? null,
    rooms: touched.map(({ id }) => id),
    at: context.now,
    by: context.actor.personId,
    role: context.role,
    endedAt: null,
  };
}

async function endOthers(tx: Tx, over: readonly StoredEvent[], context: Context): Promise<void> {
  const { facilityId } = context.begun.scope;
  const ids = over.map(({ id }) => id);
  const ended = {
    by: context.actor.personId,
    reason: "Followed by a later event of the same pipeline",
    at: context.now,
  };
  await endDepartmentEvents(tx, facilityId, ids, ended);
  await closeEventTasks(tx, facilityId, ids.map(eventTaskKey), context.now);
}

async function recordEffects(tx: Tx, zoneId: string, touched: readonly Touched[], context: Context): Promise<void> {
  const { facilityId } = context.begun.scope;
  const real = touched.flatMap(({ holder, effect }) => (effect ? [{ holder, effect }] : []));
  if (real.length === 0) return;
  await insertRoomEvents(
    tx,
    facilityId,
    zoneId,
    real.map(({ holder, effect }) => ({
      ...effect.event,
      id: context.newId(),
      roomId: holder.id,
      workstationId: effect.event.subject.kind === "workstation" ? holder.workstationId : null,
    })),
    { personId: context.actor.personId, at: context.now },
  );
  const failing = real.flatMap(({ holder, effect }) =>
    effect.failing ? [observationOf(holder, effect.failing, context)] : [],
  );
  if (failing.length > 0) await insertObservations(tx, facilityId, failing);
}

function observationOf(
  holder: Holder,
  { item, subject, answer }: NonNullable<RoomEffect["failing"]>,
  context: Context,
): NewObservation {
  const byRoom = itemOf(item).about === "room";
  return {
    id: context.newId(),
    checkId: null,
    item,
    subject,
    workstationId: byRoom ? null : holder.workstationId,
    roomId: byRoom ? holder.id : null,
    answer,
    verdict: "fail",
    observedAt: context.now,
    known: { source: "server" },
    by: context.actor.personId,
    role: context.role,
    recordedAt: context.now,
    supersedes: null,
  };
}
