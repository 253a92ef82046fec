import type { Actor } from "@/lib/auth/actor";
import { itemOf } from "@/lib/domain/items";
import { needsAttention } from "@/lib/domain/morning";
import { saidAnswer } from "@/lib/domain/wording";
import { rowsIn } from "@/lib/queries/board";
import { entryOf } from "@/lib/queries/history";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { dutyNowIn, dutyNowView, tasksIn } from "@/lib/queries/tasks";
import type { BoardRow } from "@/lib/schemas/board";
import type { ShiftSheet } from "@/lib/schemas/report-shift";
import type { Tx } from "@/lib/storage/client";
import { emergencyUses } from "@/lib/storage/emergencies";
import type { Frame } from "@/lib/storage/facility-frame";
import { type FailedAnswer, failedBetween, leavesBetween, openFaults, standingHolds } from "@/lib/storage/shift";
import { dateIn, HOUR, type Instant, instantOf, later, timestampOf } from "@/lib/units/time";

/** Which part of the sheet an entry of the history belongs to; what is not named here is not handed over. */
const PARTS = {
  moved: ["swap-workstation"],
  changed: ["swap-cylinder", "fit-part", "remove-part"],
  holds: ["hold-workstation", "lift-hold"],
  allowed: ["allow-limit"],
  reported: ["report-fault", "look-at-fault"],
} as const;
type Part = keyof typeof PARTS;

const COMMANDS = Object.values(PARTS).flat();

/** What happened in the last hours and what is left open, for whoever comes next. */
export const readShiftSheet = (
  actor: Actor,
  { hours }: { readonly hours: number },
  reading: Reading = appReading(),
): Promise<ShiftSheet> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const from = later(now, -hours * HOUR);
      const rows = await rowsIn(tx, frame, now, null);
      const entries = (await leavesBetween(tx, facilityId, from, now, COMMANDS)).map(entryOf);
      const of = (part: Part) => entries.filter(({ command }) => (PARTS[part] as readonly string[]).includes(command));
      return {
        from: timestampOf(from),
        to: timestampOf(now),
        rooms: rows.filter(notSimplyReady).sort(gravestFirst).map(roomLine),
        duty: dutyNowView(await dutyNowIn(tx, frame, now)),
        emergencies: await emergenciesSince(tx, frame, from, now),
        faults: (await openFaults(tx, facilityId)).map(({ at, ...fault }) => ({ ...fault, at: said(at) })),
        held: (await standingHolds(tx, facilityId)).map(({ at, ...hold }) => ({ ...hold, since: said(at) })),
        failed: (await failedBetween(tx, facilityId, from, now)).map(failedLine),
        moved: of("moved"),
        changed: of("changed"),
        holds: of("holds"),
        allowed: of("allowed"),
        reported: of("reported"),
        open: await tasksIn(tx, frame, now, actor.personId),
        at: timestampOf(now),
      };
    },
    reading,
  );

const PLACES: Partial<Record<FailedAnswer["subject_kind"], string>> = {
  cylinder: "yoke",
  vaporizer: "mount",
  absorbent: "canister",
};

/** Two gauges of one room are told apart by their yokes. */
function failedLine({ item, answer, observed_at, room, name, subject_kind, position }: FailedAnswer) {
  const place = position === null ? undefined : PLACES[subject_kind];
  return {
    room,
    item: place ? `${itemOf(item).name}, ${place} ${position}` : itemOf(item).name,
    answer: saidAnswer(answer),
    name,
    at: said(observed_at),
  };
}

/** The review of emergencies is asked for by days; the sheet wants the hours. */
async function emergenciesSince(tx: Tx, frame: Frame, from: Instant, to: Instant): Promise<ShiftSheet["emergencies"]> {
  const { timeZone } = frame.facility;
  const uses = await emergencyUses(tx, frame.scope.facilityId, timeZone, dateIn(timeZone, from), dateIn(timeZone, to));
  return uses.filter(({ at }) => instantOf(at) >= from).map((use) => ({ ...use }));
}

const said = (at: string) => timestampOf(instantOf(at));

const notSimplyReady = (row: BoardRow): boolean =>
  needsAttention(row) || row.whenInUse !== null || row.state === "ready-limited";

const ORDER: Record<BoardRow["state"], number> = {
  "out-of-service": 0,
  "do-not-use": 1,
  "to-check": 2,
  "ready-limited": 3,
  ready: 4,
};

const gravestFirst = (left: BoardRow, right: BoardRow): number =>
  ORDER[left.state] - ORDER[right.state] || left.walkingOrder - right.walkingOrder;

const roomLine = ({ roomId, name, state, headline, moreReasons, occupancy }: BoardRow) => ({
  roomId,
  name,
  state,
  reason: headline,
  moreReasons,
  inUse: occupancy.state === "in-use",
});
