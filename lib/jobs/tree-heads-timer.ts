import { runEvery } from "@/lib/jobs/every";
import { configuredPorts, type HeadPort } from "@/lib/jobs/tree-head-ports";
import { type Heads, publishHeads } from "@/lib/jobs/tree-heads";
import { appDatabase } from "@/lib/storage/client";
import type { Instant } from "@/lib/units/time";

const LOOK_EVERY_MS = 60_000;

/** What the running server signs heads with. */
export const appHeads = (now: () => Instant, more: readonly HeadPort[] = []): Heads => ({
  database: appDatabase(),
  now,
  secret: process.env.NEXTAUTH_SECRET ?? "",
  ports: [...configuredPorts(), ...more],
  report: (problem) => console.error("tree heads:", problem),
});

/** Looks every minute whether a head is due. */
export function startTreeHeads(now: () => Instant, more: readonly HeadPort[] = []): void {
  if (!process.env.DATABASE_URL || !process.env.NEXTAUTH_SECRET) return;
  runEvery("tree heads", LOOK_EVERY_MS, () => publishHeads(appHeads(now, more)));
}
