import type { Actor } from "@/lib/auth/actor";
import { actingRole } from "@/lib/domain/permission";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import { rowsIn } from "@/lib/queries/board";
import { isId } from "@/lib/queries/evidence";
import { questionsView } from "@/lib/queries/questions";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { BoardRow } from "@/lib/schemas/board";
import type { DowntimeView, PaperEntriesView, PaperSheetView, PrintedRoom, PrintedSheet } from "@/lib/schemas/downtime";
import type { Scope, Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import { type Frame, facilityFrame } from "@/lib/storage/facility-frame";
import { asWho, namesOf } from "@/lib/storage/names";
import { paperEntriesSince } from "@/lib/storage/paper-entries";
import { listPeople } from "@/lib/storage/people";
import { roomsWith } from "@/lib/storage/places";
import { DAY, dateIn, type Instant, instant, instantOf, later, timestampOf } from "@/lib/units/time";

/** The morning as it goes onto paper: the board, and an empty check sheet for every workstation that stands in a room. */
export const readDowntime = (actor: Actor, reading: Reading = appReading()): Promise<DowntimeView> =>
  inFacility(actor, downtimeIn, reading);

/** The same for the job that keeps a copy outside of the server. */
export const readDowntimeOf = (scope: Scope, reading: Reading): Promise<DowntimeView> =>
  reading.database.inScope(scope, async (tx) => downtimeIn(tx, await facilityFrame(tx, scope), instant(reading.now())));

async function downtimeIn(tx: Tx, frame: Frame, now: Instant): Promise<DowntimeView> {
  const rows = [...(await rowsIn(tx, frame, now, null))].sort((one, other) => one.walkingOrder - other.walkingOrder);
  const workstations = rows.flatMap(({ workstation }) => (workstation ? [workstation.id] : []));
  const holders = await loadEvidence(
    tx,
    frame,
    rows.map(({ roomId }) => roomId),
    workstations,
    now,
  );
  const byRoom = new Map(holders.map((holder) => [holder.id, holder]));
  return {
    facility: frame.facility.name,
    timeZone: frame.facility.timeZone,
    at: timestampOf(now),
    rooms: rows.map(printedRoom),
    sheets: rows.flatMap((row) => printedSheet(row, byRoom.get(row.roomId))),
  };
}

const OCCUPANCY = { idle: null, "in-use": "in use", closed: "closed today" } as const;

const printedRoom = (row: BoardRow): PrintedRoom => ({
  name: row.name,
  suite: row.suite,
  state: row.state,
  occupancy: OCCUPANCY[row.occupancy.state],
  workstation: row.workstation?.tag ?? null,
  reason:
    row.headline === null ? null : row.moreReasons > 0 ? `${row.headline} and ${row.moreReasons} more` : row.headline,
  firstCase: row.firstCase,
  equipment: row.marks.equipment?.name ?? null,
  provider: row.marks.provider?.name ?? null,
});

function printedSheet({ name, workstation }: BoardRow, holder: Holder | undefined): PrintedSheet[] {
  if (!workstation || !holder?.procedure) return [];
  const { procedure, evidence } = holder;
  return [
    {
      room: name,
      workstation: workstation.tag,
      model: workstation.model,
      procedure: `${procedure.name}, version ${procedure.version}`,
      items: expandProcedure(procedure, evidence).map(printedItem),
    },
  ];
}

function printedItem({ title, form, limits }: CheckItem): PrintedSheet["items"][number] {
  const limit = limits?.text ?? null;
  if (form.kind === "number" || form.kind === "gauge") return { title, limit, answer: "reading", unit: form.unit };
  if (form.kind === "timed") return { title, limit: limit ?? `${form.seconds} s`, answer: "reading", unit: "s" };
  return { title, limit, answer: form.kind === "choice" ? "choice" : "yes-no", unit: null };
}

/** The questions to be answered from a sheet of paper; null when the facility has no such workstation or no procedure. */
export const readPaperSheet = (
  actor: Actor,
  workstationId: string,
  reading: Reading = appReading(),
): Promise<PaperSheetView | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      if (!isId(workstationId)) return null;
      const { facilityId } = frame.scope;
      const rooms = await roomsWith(tx, facilityId, [workstationId]);
      const holders = await loadEvidence(tx, frame, rooms, [workstationId], now);
      const holder = holders.find((one) => one.workstationId === workstationId);
      if (!holder?.evidence.workstation || !holder.procedure) return null;
      const { workstation, room } = holder.evidence;
      const people = (await listPeople(tx, facilityId)).filter(
        ({ roles }) => actingRole(roles, "record-answers") !== null,
      );
      return {
        workstation: { id: workstation.id, tag: workstation.tag, model: workstation.model.name },
        room: room?.name ?? null,
        procedure: `${holder.procedure.name}, version ${holder.procedure.version}`,
        items: questionsView(expandProcedure(holder.procedure, holder.evidence)),
        people: people.map(({ id, name, userId }) => ({ id, name, userId })),
        today: dateIn(frame.facility.timeZone, now),
        timeZone: frame.facility.timeZone,
      };
    },
    reading,
  );

const DAYS_SHOWN = 31;

/** What was entered from paper in the last days. */
export const readPaperEntries = (actor: Actor, reading: Reading = appReading()): Promise<PaperEntriesView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const rows = await paperEntriesSince(tx, frame.scope.facilityId, later(now, -DAYS_SHOWN * DAY));
      const who = asWho(
        await namesOf(
          tx,
          rows.flatMap(({ done_by, entered_by, signed_by }) => [
            done_by,
            entered_by,
            ...(signed_by ? [signed_by] : []),
          ]),
        ),
      );
      return {
        days: DAYS_SHOWN,
        entries: rows.map((row) => ({
          checkId: row.check_id,
          kind: row.kind,
          workstation: row.workstation,
          room: row.room,
          doneBy: who(row.done_by),
          earliest: utc(row.earliest),
          latest: utc(row.latest),
          enteredBy: who(row.entered_by),
          enteredAt: utc(row.entered_at),
          answers: row.answers,
          failing: row.failing,
          signedBy: row.signed_by && who(row.signed_by),
        })),
      };
    },
    reading,
  );

const utc = (text: string) => timestampOf(instantOf(text));
