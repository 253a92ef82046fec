"use client";

import type { KeptOnDevice } from "@/lib/schemas/offline";
import { deviceStore, keep } from "./device-store.client";

type Clock = KeptOnDevice["clock"];

let seen: Clock | null = null;

/** The server said its time just now: the difference to this device's clock goes with every answer that is kept. */
export function serverSaid(at: string): void {
  const now = Date.now();
  seen = { offsetSeconds: Math.round((Date.parse(at) - now) / 1000), contactAt: new Date(now).toISOString() };
  keep("known", seen, "clock").catch(() => undefined);
}

/** What was seen at the last contact, also before a restart. A device that never had one goes by its own clock. */
export async function deviceClock(): Promise<Clock> {
  if (seen) return seen;
  const kept = await deviceStore()
    .then((store) => store.get("known", "clock"))
    .catch(() => undefined);
  if (kept && "contactAt" in kept) seen = kept;
  return seen ?? { offsetSeconds: 0, contactAt: new Date().toISOString() };
}
