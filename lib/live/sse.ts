import type { LiveEvents } from "@/lib/schemas/live";

const encoder = new TextEncoder();

/** One Server-Sent Event; JSON has no raw line breaks, so one data line is enough. */
export function sseEvent<Name extends keyof LiveEvents>(
  name: Name,
  data: LiveEvents[Name],
  sequence?: number,
): Uint8Array {
  const id = sequence === undefined ? "" : `id: ${sequence}\n`;
  return encoder.encode(`${id}event: ${name}\ndata: ${JSON.stringify(data)}\n\n`);
}

/** How long a browser waits before it opens the stream again; spread, so that all boards do not come back in one moment. */
export function sseRetry(): Uint8Array {
  return encoder.encode(`retry: ${Math.round(1_500 + Math.random() * 2_000)}\n\n`);
}
