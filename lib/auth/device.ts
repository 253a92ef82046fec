import { createHash } from "node:crypto";
import { DEVICE_CODE } from "@/lib/schemas/devices";
import { appDatabase, type Database, type Scope } from "@/lib/storage/client";
import { deviceSeen, type FoundDevice, findDevice } from "@/lib/storage/devices";
import type { Instant } from "@/lib/units/time";

/** A screen on a wall. It has no roles and no person: it reads its facility's wall, and there is no command it may give. */
export interface DeviceActor extends Scope {
  readonly kind: "wall-device";
  readonly deviceId: string;
  readonly name: string;
}

/** The cookie a wall keeps its code in, as long as browsers keep any (400 days), renewed whenever the page is opened. */
export const DEVICE_COOKIE = "yokeboard-wall";
export const DEVICE_COOKIE_SECONDS = 400 * 24 * 3600;

/** Walls ask every few seconds and are many; a notice about one drops it at once. */
const KEPT_FOR = 5_000;
const MOST_KEPT = 1_000;
const SEEN_EVERY = 60_000;

interface Kept {
  readonly device: FoundDevice | null;
  readonly at: number;
}
const shared = globalThis as { __yokeboardDevices?: Map<string, Kept>; __yokeboardDevicesSeen?: Map<string, number> };
const cache = (): Map<string, Kept> => {
  shared.__yokeboardDevices ??= new Map();
  return shared.__yokeboardDevices;
};
const seen = (): Map<string, number> => {
  shared.__yokeboardDevicesSeen ??= new Map();
  return shared.__yokeboardDevicesSeen;
};

/** Drops one device from the cache, or all: it may have been revoked. */
export function forgetDevice(deviceId: string | null): void {
  for (const [hash, { device }] of cache())
    if (deviceId === null || device?.deviceId === deviceId) cache().delete(hash);
}

const hashOf = (code: string): string => createHash("sha256").update(code, "utf8").digest("hex");

/** The device behind a code; null for a code that nobody gave out, or that was revoked. `now` is the facility's clock. */
export async function actorOfDevice(
  code: string | undefined,
  now: () => Instant,
  database: Database = appDatabase(),
): Promise<DeviceActor | null> {
  if (code === undefined || !DEVICE_CODE.test(code)) return null;
  const device = await lookUp(hashOf(code), database);
  if (!device) return null;
  await remember(device.deviceId, now, database);
  return { kind: "wall-device", ...device };
}

async function lookUp(hash: string, database: Database): Promise<FoundDevice | null> {
  const kept = cache().get(hash);
  // Real time, not the facility's clock, as for sessions.
  const at = Date.now();
  if (kept && at - kept.at < KEPT_FOR) return kept.device;
  const device = await findDevice(database, { codeHash: hash });
  if (cache().size >= MOST_KEPT) cache().clear();
  cache().set(hash, { device, at });
  return device;
}

async function remember(deviceId: string, now: () => Instant, database: Database): Promise<void> {
  const at = Date.now();
  if (at - (seen().get(deviceId) ?? 0) < SEEN_EVERY) return;
  if (seen().size >= MOST_KEPT) seen().clear();
  seen().set(deviceId, at);
  await deviceSeen(database, deviceId, now());
}

/** The facility of a device that is still in use, by its id: what its open stream is asked for again and again. */
export const facilityOfDevice = async (deviceId: string, database: Database = appDatabase()): Promise<string | null> =>
  (await findDevice(database, { deviceId }))?.facilityId ?? null;
