import type { Actor } from "@/lib/auth/actor";
import type { WorkstationEvidence } from "@/lib/domain/evidence";
import { roomHolder } from "@/lib/queries/evidence";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { SparePartsView } from "@/lib/schemas/moves";
import type { Tx } from "@/lib/storage/client";
import { spareCylinders } from "@/lib/storage/equipment";
import type { Frame } from "@/lib/storage/facility-frame";
import { allStores } from "@/lib/storage/placements";
import { sparePartsOf } from "@/lib/storage/spare-parts";
import { dateIn, type Instant, timestampOf } from "@/lib/units/time";

/** What could be fitted to the workstation of a room; null when there is no such room, or no workstation in it. */
export const readSpareParts = (
  actor: Actor,
  roomId: string,
  reading: Reading = appReading(),
): Promise<SparePartsView | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const holder = await roomHolder(tx, frame, roomId, now);
      const workstation = holder?.evidence.workstation;
      return workstation ? sparePartsIn(tx, frame, workstation, now) : null;
    },
    reading,
  );

/** The same for a workstation wherever it stands. */
export async function sparePartsIn(
  tx: Tx,
  frame: Frame,
  workstation: WorkstationEvidence,
  now: Instant,
): Promise<SparePartsView> {
  const { facilityId } = frame.scope;
  const parts = await sparePartsOf(tx, facilityId, workstation.model.oxygenSensor);
  return {
    workstationId: workstation.id,
    stores: await allStores(tx, facilityId),
    mounts: workstation.model.mounts.map((mount) => {
      const on = workstation.fitted.vaporizers.find((vaporizer) => vaporizer.mount === mount);
      return { mount, fitted: on ? { id: on.id, tag: on.tag, agent: on.agent } : null };
    }),
    vaporizers: parts.vaporizers.map((vaporizer) => ({ ...vaporizer })),
    absorbent: parts.absorbent.map((charge) => ({ ...charge })),
    oxygenSensors: parts.oxygenSensors.map((sensor) => ({ ...sensor })),
    yokes: await yokesOf(tx, frame, workstation, now),
    at: timestampOf(now),
  };
}

/** Each yoke with what stands on it and the cylinders of its gas that could. One after the other: a transaction is one connection. */
async function yokesOf(
  tx: Tx,
  frame: Frame,
  { model, fitted }: WorkstationEvidence,
  now: Instant,
): Promise<SparePartsView["yokes"]> {
  const today = dateIn(frame.facility.timeZone, now);
  const yokes: SparePartsView["yokes"] = [];
  for (const { position, gas } of model.yokes) {
    const on = fitted.cylinders.find((cylinder) => cylinder.position === position);
    const spares = await spareCylinders(tx, frame.scope.facilityId, gas, today);
    yokes.push({
      position,
      gas,
      fitted: on ? { id: on.id, serial: on.serial, size: on.size } : null,
      spares: spares.map(({ id, serial, size, store, contents }) => ({
        id,
        serial,
        size,
        store: store ?? "",
        contents,
      })),
    });
  }
  return yokes;
}
