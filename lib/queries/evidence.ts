import type { Actor } from "@/lib/auth/actor";
import type { Evidence } from "@/lib/domain/evidence";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { Tx } from "@/lib/storage/client";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { workstationIn } from "@/lib/storage/places";
import type { Instant } from "@/lib/units/time";

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;
export const isId = (text: string): boolean => UUID.test(text);

/** A room with its evidence; null when the facility has no such room. */
export async function roomHolder(tx: Tx, frame: Frame, roomId: string, now: Instant): Promise<Holder | null> {
  if (!isId(roomId)) return null;
  const workstation = await workstationIn(tx, frame.scope.facilityId, roomId);
  const holders = await loadEvidence(tx, frame, [roomId], workstation ? [workstation] : [], now);
  return holders.find(({ kind }) => kind === "room") ?? null;
}

/** The evidence document of one room: what the judge looked at, as it is now. */
export const readEvidence = (actor: Actor, roomId: string, reading: Reading = appReading()): Promise<Evidence | null> =>
  inFacility(actor, async (tx, frame, now) => (await roomHolder(tx, frame, roomId, now))?.evidence ?? null, reading);
