import type { Hub } from "./hub";
import { sseRetry } from "./sse";

/** A reader that lets so much pile up is gone or hopeless; it comes back and reads the board once. */
const MOST_WAITING_BYTES = 4 * 1024 * 1024;

/** One browser's stream of events as the body of a response. */
export function eventStream(
  hub: Hub,
  facilityId: string,
  sessionId: string,
  signal: AbortSignal,
): ReadableStream<Uint8Array> {
  let leave: () => void = () => undefined;
  let gone = false;
  return new ReadableStream<Uint8Array>(
    {
      start(controller) {
        controller.enqueue(sseRetry());
        leave = hub.subscribe(facilityId, sessionId, {
          send(chunk) {
            controller.enqueue(chunk);
            if ((controller.desiredSize ?? 0) <= 0) leave();
          },
          close() {
            if (!gone) controller.close();
          },
        });
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
