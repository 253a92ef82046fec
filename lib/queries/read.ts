import { type Actor, scopeOf } from "@/lib/auth/actor";
import { appDatabase, type Database, type Tx } from "@/lib/storage/client";
import { type Frame, facilityFrame } from "@/lib/storage/facility-frame";
import { type Instant, instant } from "@/lib/units/time";

/** A reader's view of time. The running application passes its clock; tests pass theirs. */
export interface Reading {
  readonly database: Database;
  readonly now: () => number;
}

const shared = globalThis as { __yokeboardReading?: () => number };

/** Tells the readers of this process which clock the facility runs on (the demo's is shifted). */
export function readBy(now: () => number): void {
  shared.__yokeboardReading = now;
}

export const appReading = (): Reading => ({
  get database() {
    return appDatabase();
  },
  now: shared.__yokeboardReading ?? Date.now,
});

/** One read in one transaction of the actor's facility, at one moment. */
export function inFacility<View>(
  actor: Actor,
  work: (tx: Tx, frame: Frame, now: Instant) => Promise<View>,
  reading: Reading = appReading(),
): Promise<View> {
  const scope = scopeOf(actor);
  return reading.database.inScope(scope, async (tx) =>
    work(tx, await facilityFrame(tx, scope), instant(reading.now())),
  );
}
