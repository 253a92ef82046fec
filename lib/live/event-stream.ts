import type { Hub } from "./hub";
import { sseRetry } from "./sse";
import type { Audience } from "./streams";

/** A reader that lets so much pile up is gone or hopeless; it comes back and reads the board once. */
const MOST_WAITING_BYTES = 4 * 1024 * 1024;

/** One browser's stream of events as the body of a response. */
export function eventStream(
  hub: Hub,
  facilityId: string,
  sessionId: string,
  signal: AbortSignal,
  audience: Audience = "staff",
): ReadableStream<Uint8Array> {
  let leave: () => void = () => undefined;
  let gone = false;
  return new ReadableStream<Uint8Array>(
    {
      start(controller) {
        controller.enqueue(sseRetry());
        const sink = {
          send(chunk: Uint8Array) {
            controller.enqueue(chunk);
            if ((controller.desiredSize ?? 0) <= 0) leave();
          },
          close() {
            if (!gone) controller.close();
          },
        };
        leave = hub.subscribe(facilityId, sessionId, sink, audience);
        signal.addEventListener("abort", () => leave(), { once: true });
        if (signal.aborted) leave();
      },
      cancel() {
        gone = true;
        leave();
      },
    },
    new ByteLengthQueuingStrategy({ highWaterMark: MOST_WAITING_BYTES }),
  );
}
