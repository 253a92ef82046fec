import type { Actor } from "@/lib/auth/actor";
import { owedInWords } from "@/lib/domain/owed-words";
import { morning } from "@/lib/domain/rules/policy/morning";
import { valuesOf } from "@/lib/domain/rules/settings";
import { chooseSpares, type Spare } from "@/lib/domain/spare-choice";
import { isId } from "@/lib/queries/evidence";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { SparesView } from "@/lib/schemas/moves";
import type { Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { allStores, sparesFor } from "@/lib/storage/placements";
import { workstationIn } from "@/lib/storage/places";
import { valueIn } from "@/lib/units/quantity";
import { type Instant, timestampOf } from "@/lib/units/time";

/** The spare workstations for a room, judged as if each stood in it; null when the facility has no such room. */
export const readSpares = (actor: Actor, roomId: string, reading: Reading = appReading()): Promise<SparesView | null> =>
  inFacility(
    actor,
    (tx, frame, now) => (isId(roomId) ? sparesIn(tx, frame, now, roomId) : Promise.resolve(null)),
    reading,
  );

export async function sparesIn(tx: Tx, frame: Frame, now: Instant, roomId: string): Promise<SparesView | null> {
  const { facilityId } = frame.scope;
  const stored = await sparesFor(tx, facilityId, roomId);
  const here = await workstationIn(tx, facilityId, roomId);
  const ids = [...stored.map(({ workstationId }) => workstationId), ...(here ? [here] : [])];
  const holders = await loadEvidence(tx, frame, [roomId], ids, now);
  const room = holders.find(({ kind }) => kind === "room");
  if (!room?.evidence.room) return null;
  const byId = new Map(holders.map((holder) => [holder.workstationId, holder]));
  const spares = stored.flatMap(({ workstationId, store, distance }) => {
    const holder = byId.get(workstationId);
    return holder?.evidence.workstation ? [spareOf(holder, store, distance)] : [];
  });
  const { suitable, unsuitable } = chooseSpares(room.evidence, spares, procedureOf(holders));
  const { workstation } = room.evidence;
  return {
    room: { id: roomId, name: room.evidence.room.name },
    outgoing: workstation && { id: workstation.id, tag: workstation.tag },
    swapMinutes: valueIn(valuesOf(morning, room.evidence).swap, "min") ?? 0,
    stores: await allStores(tx, facilityId),
    suitable: suitable.map(({ spare, owed, limits, roomRemains, ...rest }) => ({
      ...namedOf(spare),
      ...rest,
      limits: [...limits],
      owed: owedInWords(owed, spare.evidence.workstation),
      roomRemains: [...roomRemains],
    })),
    unsuitable: unsuitable.map(({ spare, ...rest }) => ({ ...namedOf(spare), ...rest })),
    at: timestampOf(now),
  };
}

/** One procedure is in force for the whole facility. */
const procedureOf = (holders: readonly Holder[]) =>
  holders.find(({ procedure }) => procedure !== null)?.procedure ?? null;

function spareOf({ evidence }: Holder, store: Spare["store"], distance: number | null): Spare {
  const { workstation } = evidence;
  return {
    workstationId: workstation?.id ?? "",
    tag: workstation?.tag ?? "",
    model: workstation?.model.name ?? "",
    store,
    distance,
    evidence,
  };
}

const namedOf = ({ workstationId, tag, model, store, distance }: Spare) => ({
  workstationId,
  tag,
  model,
  store: store && { ...store },
  distance,
});
