/** Runs once when the server starts: readers get the facility's clock, which the demo shifts, and what keeps itself up to date begins. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { systemClock } = await import("@/lib/live/clock");
  const { readBy } = await import("@/lib/queries/read");
  const now = () => systemClock().now();
  readBy(now);
  const { startDowntimeCopies } = await import("@/lib/jobs/downtime-copies");
  startDowntimeCopies(now, async () => (await import("@/lib/exchange/downtime/pdf")).downtimePdf);
  const { startTreeHeads } = await import("@/lib/jobs/tree-heads-timer");
  startTreeHeads(now);
  const { startMessages } = await import("@/lib/jobs/messages-timer");
  const ports = async () => (await import("@/lib/exchange/messages/ports")).configuredPorts();
  startMessages(now, ports, process.env.YOKEBOARD_PUBLIC_URL ?? "http://127.0.0.1");
}
