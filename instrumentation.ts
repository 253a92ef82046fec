/** Runs once when the server starts: readers get the facility's clock, which the demo shifts. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { systemClock } = await import("@/lib/live/clock");
  const { readBy } = await import("@/lib/queries/read");
  readBy(() => systemClock().now());
}
