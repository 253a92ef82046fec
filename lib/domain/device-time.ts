import type { Known } from "@/lib/domain/evidence";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { type Instant, instant, timestampOf } from "@/lib/units/time";

/** What a device knows of its own clock: how far it was behind the server when they last spoke. */
export interface DeviceClock {
  /** Server time minus device time, in seconds, measured at the last contact. */
  readonly offsetSeconds: number;
  /** That contact, by the device's clock. */
  readonly contactAt: Instant;
}

export interface KnownTime {
  readonly observedAt: Instant;
  readonly known: Known;
}

/** Sent at once: the server's own time is as good. In milliseconds. Common practice, no source. */
const AT_ONCE_MS = 15_000;
/** What measuring the offset and the way of a message may be wrong by, in milliseconds. Common practice, no source. */
const SLACK_MS = 5_000;
/** Nothing is kept on a device for longer, in milliseconds. Common practice, no source. */
const LONGEST_KEPT_MS = 30 * 86_400_000;

/**
 * When an answer was given, from the device's time and the offset seen at the last contact. The offset carries a clock that is
 * hours off; a clock that was turned since that contact shows as an answer before the contact or after now, and then only the span
 * between the two is known. A clock turned forward by less than the time cut off does not show. In instants (milliseconds, UTC).
 */
export function decideDeviceTime(givenAt: Instant, clock: DeviceClock, now: Instant): Outcome<KnownTime, "invalid"> {
  const offset = clock.offsetSeconds * 1000;
  const at = givenAt + offset;
  const contact = Math.min(clock.contactAt + offset, now);
  if (now - contact > LONGEST_KEPT_MS)
    return refused("invalid", "This was kept on a device for more than 30 days; enter it from paper instead.", "kept");
  const turned = givenAt < clock.contactAt - SLACK_MS || at > now + SLACK_MS;
  if (turned) return done({ observedAt: now, known: spanOf(contact, now, clock.offsetSeconds) });
  if (now - at <= AT_ONCE_MS) return done({ observedAt: now, known: { source: "server" } });
  return done({
    observedAt: instant(Math.min(at, now)),
    known: { source: "device", offsetSeconds: clock.offsetSeconds },
  });
}

const spanOf = (earliest: number, latest: number, offsetSeconds: number): Known => ({
  source: "device",
  offsetSeconds,
  earliest: timestampOf(instant(earliest)),
  latest: timestampOf(instant(latest)),
});
