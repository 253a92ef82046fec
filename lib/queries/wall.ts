import { eventTitle } from "@/lib/domain/event/decide";
import { RULES } from "@/lib/domain/rules/all";
import { readBoardOf } from "@/lib/queries/board";
import { appReading, type Reading } from "@/lib/queries/read";
import type { BoardRow } from "@/lib/schemas/board";
import type { WallBoard, WallRow } from "@/lib/schemas/wall";
import type { Scope } from "@/lib/storage/client";
import { departmentEvents } from "@/lib/storage/department-events";
import { timestampOf } from "@/lib/units/time";

/** The wall of a facility, without a name of anybody. */
export async function readWall(scope: Scope, reading: Reading = appReading()): Promise<WallBoard> {
  const { rooms, ...head } = await readBoardOf(scope, reading);
  return { ...head, events: await openEventsOf(scope, reading), rooms: rooms.map(wallRowOf) };
}

/** The title is made of kinds, gases and places; whoever reported it may have added words, which stay off the wall. */
async function openEventsOf(scope: Scope, reading: Reading): Promise<WallBoard["events"]> {
  const open = await reading.database.inScope(scope, (tx) => departmentEvents(tx, scope.facilityId, {}));
  return open.map((event) => ({
    id: event.id,
    title: eventTitle(event),
    drill: event.drill,
    at: timestampOf(event.at),
    rooms: event.rooms.length,
  }));
}

/** Names what may be seen, field by field: a new field of the board stays off the wall until somebody puts it here. */
export function wallRowOf(row: BoardRow): WallRow {
  return {
    roomId: row.roomId,
    name: row.name,
    suite: row.suite,
    walkingOrder: row.walkingOrder,
    state: row.state,
    occupancy: row.occupancy,
    equipmentChecked: row.marks.equipment !== null,
    providerChecked: row.marks.provider !== null,
    limits: row.limits,
    limitsAllowed: row.limitsAllowed,
    readyForList: row.readyForList,
    whenInUse: row.whenInUse,
    reason: reasonOf(row.headlineRule),
    firstCase: row.firstCase,
    decideBy: row.decideBy,
    goodUntil: row.goodUntil,
    work: row.work.map(({ minutes, claimedAt }) => ({ minutes, inHandSince: claimedAt })),
  };
}

const IN_BRIEF = new Map(RULES.map(({ id, inBrief }) => [id, inBrief]));

/** The headline itself stays off the wall: it may hold what somebody wrote. */
function reasonOf(rule: string | null): WallRow["reason"] {
  const inBrief = rule === null ? undefined : IN_BRIEF.get(rule);
  return rule === null || inBrief === undefined ? null : { rule, inBrief };
}
