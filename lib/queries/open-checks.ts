import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { OpenChecksView, OpenCheckView } from "@/lib/schemas/work";
import { openCheckRecords } from "@/lib/storage/check-hands";
import type { Tx } from "@/lib/storage/client";
import { loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { roomsWith } from "@/lib/storage/places";
import { type Instant, timestampOf } from "@/lib/units/time";

/** Today's full checks that nobody has signed yet: this person's own and taken-over ones, and everybody else's. */
export const readOpenChecks = (actor: Actor, reading: Reading = appReading()): Promise<OpenChecksView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const open = await openChecksIn(tx, frame, now);
      return {
        mine: open.filter(({ heldById }) => heldById === actor.personId).map(viewOf),
        others: open.filter(({ heldById }) => heldById !== actor.personId).map(viewOf),
        at: timestampOf(now),
      };
    },
    reading,
  );

type Open = OpenCheckView & { readonly heldById: string };

const viewOf = ({ heldById: _who, ...view }: Open): OpenCheckView => view;

/** Open checks of some workstations, or of all, with how many of their questions are answered. */
export async function openChecksIn(
  tx: Tx,
  frame: Frame,
  now: Instant,
  workstations: readonly string[] | null = null,
): Promise<Open[]> {
  const since = checkDayAt(checkClock(frame), now).from;
  const records = await openCheckRecords(tx, frame.scope.facilityId, since, workstations);
  if (records.length === 0) return [];
  const standing = [...new Set(records.map(({ workstation }) => workstation.id))];
  const rooms = await roomsWith(tx, frame.scope.facilityId, standing);
  const holders = await loadEvidence(tx, frame, rooms, standing, now);
  const asked = new Map(
    holders.map(({ workstationId, procedure, evidence }) => [
      workstationId,
      procedure ? expandProcedure(procedure, evidence).length : 0,
    ]),
  );
  return records.map(({ room, workstation, ...record }) => ({
    ...record,
    room: room && { ...room },
    workstation: { ...workstation },
    asked: asked.get(workstation.id) ?? 0,
  }));
}

export const openChecksOf = async (
  tx: Tx,
  frame: Frame,
  now: Instant,
  workstationId: string,
): Promise<OpenCheckView[]> => (await openChecksIn(tx, frame, now, [workstationId])).map(viewOf);
