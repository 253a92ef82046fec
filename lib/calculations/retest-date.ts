import type { LocalDate } from "@/lib/units/time";
import { type Calculated, type Refused, refused } from "./calculated";
import { addMonths } from "./calendar-months";
import { nearYear } from "./century-window";
import { outsideCalendar } from "./service-dates";

/** Years between tests of a cylinder; 5 is the shortest that the paragraph gives where it gives several. */
export const RETEST_YEARS = { "3A": 5, "3AA": 5, "3AL": 5, "3AX": 5, "3AAX": 5, "3HT": 3 } as const;
export type CylinderSpecification = keyof typeof RETEST_YEARS;

/** A five-pointed star after the date: tested every ten years. Steel in listed dry gases only (49 CFR 180.209(b), from memory). */
const STAR_YEARS = 10;
const STARRED: readonly CylinderSpecification[] = ["3A", "3AA"];

export interface RetestStamp {
  /** Month and year of the last test as stamped on the shoulder: "03-22". */
  readonly stamp: string;
  readonly specification: CylinderSpecification;
  readonly star: boolean;
  readonly seenOn: LocalDate;
}

export type RetestRefusal = "not-a-stamp" | "star-not-allowed";

/**
 * The month in which a cylinder's next test falls due.
 *
 *   due = stamped month + years of the specification        (YYYY-MM)
 *
 * in        stamp MM-YY, specification, star, the day it is read (for the century)
 * out       a month. A cylinder filled before it may be used up after it; it may not be filled again: a note for the supplier, no stop
 * error     exact for the interval chosen; some paragraphs allow 10 or 12 years under conditions, the shortest is used
 * refuses   a stamp that is not MM-YY; a star on a specification that has none
 * not for   cylinders under a special permit or foreign ones: their own papers say when
 * source    49 CFR 180.209, table 1 (secondary); star and use after the date from memory of 180.209(b) and 173.301(a)(6)
 */
export function retestDue({ stamp, specification, star, seenOn }: RetestStamp): Calculated<string, RetestRefusal> {
  const parts = /^(0[1-9]|1[0-2])[-/ ]?(\d{2})$/.exec(stamp);
  if (!parts) return notAStamp(stamp);
  if (star && !STARRED.includes(specification)) {
    return refused(
      "star-not-allowed",
      `A star goes with ${STARRED.join(" and ")} only, not with ${specification}. Read the stamp again.`,
    );
  }
  const year = nearYear(Number(parts[2]), seenOn) + (star ? STAR_YEARS : RETEST_YEARS[specification]);
  return {
    ok: true,
    value: `${String(year).padStart(4, "0")}-${parts[1]}`,
    method: `${star ? STAR_YEARS : RETEST_YEARS[specification]} years from the stamped month`,
    uncertainty: null,
    source: "49 CFR 180.209, table 1 (secondary)",
  };
}

const notAStamp = (stamp: string): Refused<"not-a-stamp"> =>
  refused("not-a-stamp", `"${stamp}" is not month and year of a test. Write it as stamped, for example 03-22.`);

const EVENT_FILE_MONTHS = 24;

/**
 * Until when the file of a reported device event is kept: two years from the event.
 * source    21 CFR 803.18
 */
export function eventFileUntil(event: LocalDate): Calculated<LocalDate, "outside-the-calendar"> {
  const until = addMonths(event, EVENT_FILE_MONTHS);
  if (!until) return outsideCalendar(event);
  return { ok: true, value: until, method: "two years from the event", uncertainty: null, source: "21 CFR 803.18" };
}
