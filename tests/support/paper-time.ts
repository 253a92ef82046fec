import { dateIn, instant, timeIn } from "@/lib/units/time";
import type { SmallDepartment } from "@/tests/support/small-department";

/** What a sheet of paper says about a check that was done so many minutes ago, by the clock on the wall. */
export function paperTime({ clock, admin }: SmallDepartment, fromMinutesAgo: number, toMinutesAgo: number) {
  const zone = admin.facility.timeZone;
  const at = (minutes: number) => instant(clock.now() - minutes * 60_000);
  const from = at(fromMinutesAgo);
  return { on: dateIn(zone, from), from: timeIn(zone, from), to: timeIn(zone, at(toMinutesAgo)) };
}
