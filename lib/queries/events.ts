import type { Actor } from "@/lib/auth/actor";
import { boardSummary } from "@/lib/domain/board-summary";
import { emergencyCard } from "@/lib/domain/emergency-card";
import { eventTaskKey, eventTitle, stillOwed } from "@/lib/domain/event/decide";
import { judge } from "@/lib/domain/judge";
import type { Judgement } from "@/lib/domain/judgement";
import { numeral } from "@/lib/domain/wording";
import { isId } from "@/lib/queries/evidence";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { EventLine, EventRoom, EventsView, EventView, OpenEventsView } from "@/lib/schemas/events";
import type { Tx } from "@/lib/storage/client";
import { departmentEvents, eventPlaces, type StoredEvent } from "@/lib/storage/department-events";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { everyHolder } from "@/lib/storage/places";
import { openTask } from "@/lib/storage/tasks";
import { type Instant, timestampOf } from "@/lib/units/time";

const LAST_ENDED = 20;

/** What is open now, for the line above the rooms. */
export const readOpenEvents = (actor: Actor, reading: Reading = appReading()): Promise<OpenEventsView> =>
  inFacility(
    actor,
    async (tx, frame, now) => ({ events: await openLines(tx, frame, now), at: timestampOf(now) }),
    reading,
  );

/** What is open, what was, and where something can happen. */
export const readEvents = (actor: Actor, reading: Reading = appReading()): Promise<EventsView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const ended = await departmentEvents(tx, facilityId, { ended: true, most: LAST_ENDED });
      const { zones, models } = await eventPlaces(tx, facilityId);
      return {
        open: await openLines(tx, frame, now),
        ended: ended.map((event) => lineOf(event, null)),
        zones: zones.map(({ piped, ...zone }) => ({ ...zone, piped: [...piped] })),
        models: [...models],
        at: timestampOf(now),
      };
    },
    reading,
  );

/** One event with its card and what it means for each room; null when the facility has no such event. */
export const readEvent = (actor: Actor, id: string, reading: Reading = appReading()): Promise<EventView | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const [event] = isId(id) ? await departmentEvents(tx, frame.scope.facilityId, { id }) : [];
      if (!event) return null;
      const rooms = await roomsOf(tx, frame, event.rooms, now);
      const task = await openTask(tx, frame.scope.facilityId, eventTaskKey(id));
      return {
        line: lineOf(event, rooms),
        zone: event.zone,
        model: event.model,
        gas: event.gas,
        reading: event.reading && { ...event.reading },
        note: event.note,
        endedBy: event.endedByName,
        endReason: event.endReason,
        card: cardOf(event),
        rooms: inOrder(rooms, event.rooms).map((one) => roomView(one, event)),
        taskKey: eventTaskKey(id),
        claim: task?.claim ? { name: task.claim.name, since: timestampOf(task.claim.since) } : null,
        at: timestampOf(now),
      };
    },
    reading,
  );

interface JudgedRoom {
  readonly holder: Holder;
  readonly judgement: Judgement;
}

async function openLines(tx: Tx, frame: Frame, now: Instant): Promise<EventLine[]> {
  const open = await departmentEvents(tx, frame.scope.facilityId, {});
  if (open.length === 0) return [];
  const rooms = await roomsOf(tx, frame, [...new Set(open.flatMap((event) => event.rooms))], now);
  return open.map((event) => lineOf(event, rooms));
}

async function roomsOf(tx: Tx, frame: Frame, ids: readonly string[], now: Instant): Promise<JudgedRoom[]> {
  const { workstations } = await everyHolder(tx, frame.scope.facilityId);
  const holders = await loadEvidence(tx, frame, ids, workstations, now);
  return holders.filter(({ kind }) => kind === "room").map((holder) => ({ holder, judgement: judge(holder.evidence) }));
}

const inOrder = (rooms: readonly JudgedRoom[], ids: readonly string[]): JudgedRoom[] =>
  ids.flatMap((id) => rooms.filter(({ holder }) => holder.id === id));

function lineOf(event: StoredEvent, rooms: readonly JudgedRoom[] | null): EventLine {
  return {
    id: event.id,
    kind: event.kind,
    drill: event.drill,
    title: eventTitle(event),
    at: timestampOf(event.at),
    by: event.byName,
    effect: effectText(event, rooms),
    endedAt: event.endedAt === null ? null : timestampOf(event.endedAt),
  };
}

const many = (count: number, one: string): string => `${numeral(count)} ${one}${count === 1 ? "" : "s"}`;

/** "5 rooms: 2 in use, act now; 3 still to return". Counted, for the rooms themselves stand below. */
function effectText(event: StoredEvent, all: readonly JudgedRoom[] | null): string {
  const count = many(event.rooms.length, "room");
  if (event.drill) return `${count}, nothing is out of use`;
  if (all === null || event.kind === "recall") return count;
  const rooms = inOrder(all, event.rooms);
  const acting = rooms.filter(({ judgement }) => judgement.whenInUse === "act-now").length;
  const left = rooms.filter(({ holder, judgement }) => stillOwed(event, holder.evidence, judgement).length > 0).length;
  const parts = [
    ...(acting > 0 ? [`${numeral(acting)} in use, act now`] : []),
    left > 0 ? `${numeral(left)} still to return` : "all back in service",
  ];
  return `${count}: ${parts.join("; ")}`;
}

function roomView({ holder, judgement }: JudgedRoom, event: StoredEvent): EventRoom {
  const { room, workstation } = holder.evidence;
  const { reserve } = boardSummary(holder.evidence, judgement);
  return {
    roomId: holder.id,
    name: room?.name ?? "",
    suite: room?.suite ?? "",
    workstation: workstation?.tag ?? null,
    state: judgement.state,
    occupancy: room?.occupancy ?? { state: "idle" },
    whenInUse: judgement.whenInUse,
    reason: judgement.reasons[0]?.text ?? null,
    firstCase: room?.list?.firstCase ?? null,
    minutesByHand: reserve?.minutesByHand ?? null,
    minutesOnVentilator: reserve?.minutesOnVentilator ?? null,
    left: event.drill || event.endedAt !== null ? [] : [...stillOwed(event, holder.evidence, judgement)],
  };
}

function cardOf(event: StoredEvent): EventView["card"] {
  const { title, steps, source } = emergencyCard(event.kind, event.gas);
  return { title, steps: steps.map((step) => ({ ...step })), source };
}
