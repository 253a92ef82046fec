import { type Sending, sendDue } from "@/lib/jobs/deliveries";
import { escalateDue } from "@/lib/jobs/escalations";
import { runEvery } from "@/lib/jobs/every";
import { summariseDue } from "@/lib/jobs/summaries";
import { appDatabase } from "@/lib/storage/client";
import type { Instant } from "@/lib/units/time";

const SEND_EVERY_MS = 5_000;
const LOOK_EVERY_MS = 30_000;

export type Ports = Sending["ports"];

/** Looks twice a minute who must be asked and told, and sends what is due a little later. `ports` are made when they are first needed. */
export function startMessages(now: () => Instant, ports: () => Promise<Ports>, publicUrl: string): void {
  if (!process.env.DATABASE_URL) return;
  let made: Promise<Ports> | undefined;
  runEvery("messages", LOOK_EVERY_MS, async () => {
    const watching = { database: appDatabase(), now };
    await escalateDue(watching);
    await summariseDue(watching);
  });
  runEvery("deliveries", SEND_EVERY_MS, async () => {
    made ??= ports();
    await sendDue({ database: appDatabase(), now, ports: await made, publicUrl });
  });
}
