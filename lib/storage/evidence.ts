import { checkDayAt } from "@/lib/domain/check-day";
import { EVIDENCE_SCHEMA, type Evidence } from "@/lib/domain/evidence";
import type { Procedure } from "@/lib/domain/procedure/model";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import type { Tx } from "@/lib/storage/client";
import type { Begun } from "@/lib/storage/command-frame";
import { checkOf, eventOf, observationOf, roomOf, workstationOf } from "@/lib/storage/evidence-assemble";
import { queryEvidence } from "@/lib/storage/evidence-query";
import type { EvidenceRows, RoomRow, WorkstationRow } from "@/lib/storage/evidence-rows";
import { NOW, type When } from "@/lib/storage/evidence-when";
import { procedureOf } from "@/lib/storage/procedure-evidence";
import { trendsOf } from "@/lib/storage/trends";
import { type Instant, timestampOf } from "@/lib/units/time";

/** Whose readiness is judged: a room with what stands in it, or a spare workstation in a store. */
export interface Holder {
  readonly kind: "room" | "workstation";
  readonly id: string;
  readonly workstationId: string | null;
  readonly walkingOrder: number;
  /** Where the list of the day comes from; null without one. */
  readonly listFrom: "day" | "week" | null;
  readonly evidence: Evidence;
  readonly procedure: Procedure | null;
}

type Frame = Pick<Begun, "scope" | "facility" | "settings" | "settingsVersion">;

/** The evidence of the given rooms, and of those given workstations that stand in no room. */
export async function loadEvidence(
  tx: Tx,
  frame: Frame,
  rooms: readonly string[],
  workstations: readonly string[],
  now: Instant,
  when: When = NOW,
): Promise<Holder[]> {
  const today = checkDayAt(checkClock(frame), now);
  const rows = await queryEvidence(tx, frame.scope.facilityId, rooms, workstations, now, today.date, when);
  const inRoom = new Map(rows.workstations.filter((w) => w.room_id !== null).map((w) => [w.room_id, w]));
  return [
    ...rows.rooms.map((room) => holderOf(frame, rows, room, inRoom.get(room.id) ?? null, now, today.from)),
    ...rows.workstations.filter((w) => w.room_id === null).map((w) => holderOf(frame, rows, null, w, now, today.from)),
  ];
}

function holderOf(
  frame: Frame,
  rows: EvidenceRows,
  roomRow: RoomRow | null,
  row: WorkstationRow | null,
  now: Instant,
  today: Instant,
): Holder {
  const { facility } = frame;
  const room = roomRow && roomOf(roomRow, facility.timeZone, today, rows.vapor_free);
  const workstation = row && workstationOf(row, rows);
  const procedure = rows.procedure && { ...rows.procedure.document, own: rows.own_questions.flat() };
  const mine = (about: { workstation_id: string | null; room_id: string | null }) =>
    (row !== null && about.workstation_id === row.id) || (roomRow !== null && about.room_id === roomRow.id);
  const evidence: Evidence = {
    schema: EVIDENCE_SCHEMA,
    now: timestampOf(now),
    facility: {
      id: facility.id,
      timeZone: facility.timeZone,
      scheme: facility.scheme,
      pressureUnit: facility.pressureUnit,
    },
    settings: frame.settings,
    settingsVersion: frame.settingsVersion,
    room,
    workstation,
    procedure: workstation && procedureOf(rows, { facility, settings: frame.settings, room, workstation }),
    observations: rows.observations.filter(mine).map(observationOf),
    checks: rows.checks.filter(mine).map(checkOf),
    events: rows.events.filter(mine).map(eventOf),
    trends: trendsOf(rows.trends, [row?.id, roomRow?.id], workstation),
  };
  return {
    kind: roomRow ? "room" : "workstation",
    id: roomRow?.id ?? row?.id ?? "",
    workstationId: row?.id ?? null,
    walkingOrder: roomRow?.walking_order ?? 0,
    listFrom: roomRow?.list?.source ?? null,
    evidence,
    procedure,
  };
}
