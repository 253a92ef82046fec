import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { boardRowOf, isOverdue, judgedNow } from "@/lib/queries/board-row";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { Board, BoardRow } from "@/lib/schemas/board";
import { boardRowRecords } from "@/lib/storage/board-rows";
import type { Scope, Tx } from "@/lib/storage/client";
import { loadEvidence } from "@/lib/storage/evidence";
import { type Frame, facilityFrame } from "@/lib/storage/facility-frame";
import { currentSequence } from "@/lib/storage/places";
import { type Instant, instant, timestampOf } from "@/lib/units/time";

/** The board of the actor's facility. */
export const readBoard = (actor: Actor, reading: Reading = appReading()): Promise<Board> =>
  inFacility(actor, (tx, frame, now) => boardIn(tx, frame, now), reading);

/** The same for whoever serves a whole facility, such as the snapshot. */
export const readBoardOf = (scope: Scope, reading: Reading = appReading()): Promise<Board> =>
  reading.database.inScope(scope, async (tx) => boardIn(tx, await facilityFrame(tx, scope), instant(reading.now())));

/** Some rooms of a facility as they are now: what a notice names. */
export const readBoardRows = (
  scope: Scope,
  rooms: readonly string[] | "all",
  reading: Reading = appReading(),
): Promise<BoardRow[]> =>
  reading.database.inScope(scope, async (tx) =>
    rowsIn(tx, await facilityFrame(tx, scope), instant(reading.now()), rooms === "all" ? null : rooms),
  );

async function boardIn(tx: Tx, frame: Frame, now: Instant): Promise<Board> {
  // The sequence is read first: rows may then be newer than it says, never older.
  const sequence = await currentSequence(tx, frame.scope.facilityId);
  const rooms = await rowsIn(tx, frame, now, null);
  return { facility: frame.facility, sequence, at: timestampOf(now), demo: process.env.YOKEBOARD_DEMO === "1", rooms };
}

export async function rowsIn(tx: Tx, frame: Frame, now: Instant, only: readonly string[] | null): Promise<BoardRow[]> {
  const records = await boardRowRecords(tx, frame.scope.facilityId, only);
  const overdue = records.filter((record) => isOverdue(record, now));
  if (overdue.length === 0) return records.map(boardRowOf);
  const ids = overdue.map(({ roomId }) => roomId);
  const workstations = overdue.flatMap(({ workstation }) => (workstation ? [workstation.id] : []));
  const holders = new Map((await loadEvidence(tx, frame, ids, workstations, now)).map((holder) => [holder.id, holder]));
  const today = checkDayAt(checkClock(frame), now);
  return records.map((record) => {
    const holder = isOverdue(record, now) ? holders.get(record.roomId) : undefined;
    return boardRowOf(holder ? judgedNow(record, holder, today) : record);
  });
}
