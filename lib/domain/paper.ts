import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { addDays, DAY, HOUR, type Instant, instantAt, type LocalDate, type LocalTime } from "@/lib/units/time";

/** What a sheet of paper says about when a check was done, in the facility's own time. */
export interface PaperTime {
  readonly on: LocalDate;
  readonly from: LocalTime;
  readonly to: LocalTime;
}

export interface PaperSpan {
  readonly earliest: Instant;
  readonly latest: Instant;
}

/** Paper that is older than this is filed and not entered any more; own choice, no source. */
const LONGEST_AGO = 31 * DAY;
/** A check takes minutes; a longer span says nothing about when it was done. Own choice, no source. */
const LONGEST_SPAN = 12 * HOUR;

/**
 * When a check on paper was done. It need not be exact, but it must have been: in the past, and narrow enough to mean something.
 * A night check ends on the next day. What happened to the equipment inside the span may have come before or after the check.
 */
export function decidePaperTime(
  { on, from, to }: PaperTime,
  timeZone: string,
  now: Instant,
): Outcome<PaperSpan, "invalid"> {
  const earliest = instantAt(timeZone, on, from);
  const latest = instantAt(timeZone, to < from ? addDays(on, 1) : on, to);
  if (now - earliest > LONGEST_AGO)
    return refused("invalid", `${on} is more than 31 days ago: keep the paper; it is not entered any more.`, "on");
  if (earliest > now) return refused("invalid", `${on} ${from} has not come yet: paper is entered afterwards.`, "from");
  if (latest > now) return refused("invalid", `${on} ${to} has not come yet: paper is entered afterwards.`, "to");
  if (latest - earliest > LONGEST_SPAN)
    return refused("invalid", `From ${from} to ${to} is more than 12 hours: say more closely when it was done.`, "to");
  return done({ earliest, latest });
}
