import { configuredPorts, type HeadPort } from "@/lib/jobs/tree-head-ports";
import { type Heads, publishHeads } from "@/lib/jobs/tree-heads";
import { appDatabase } from "@/lib/storage/client";
import type { Instant } from "@/lib/units/time";

const LOOK_EVERY_MS = 60_000;

interface Shared {
  __yokeboardHeads?: NodeJS.Timeout;
  __yokeboardClosers?: Set<() => Promise<void>>;
}
const shared = globalThis as Shared;

/** What the running server signs heads with. */
export const appHeads = (now: () => Instant, more: readonly HeadPort[] = []): Heads => ({
  database: appDatabase(),
  now,
  secret: process.env.NEXTAUTH_SECRET ?? "",
  ports: [...configuredPorts(), ...more],
  report: (problem) => console.error("tree heads:", problem),
});

/** Looks every minute whether a head is due, in this process, once. What goes wrong is told, and tried again at the next look. */
export function startTreeHeads(now: () => Instant, more: readonly HeadPort[] = []): void {
  if (shared.__yokeboardHeads || !process.env.DATABASE_URL || !process.env.NEXTAUTH_SECRET) return;
  let running: Promise<unknown> = Promise.resolve();
  const look = () => {
    running = publishHeads(appHeads(now, more)).catch((problem: unknown) =>
      console.error("tree heads:", problem instanceof Error ? problem.message : problem),
    );
  };
  shared.__yokeboardHeads = setInterval(look, LOOK_EVERY_MS);
  shared.__yokeboardHeads.unref();
  shared.__yokeboardClosers ??= new Set();
  shared.__yokeboardClosers.add(async () => {
    clearInterval(shared.__yokeboardHeads);
    await running;
  });
}
