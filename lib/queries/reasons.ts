import type { Actor } from "@/lib/auth/actor";
import { checkDayOn } from "@/lib/domain/check-day";
import { datesBetween } from "@/lib/domain/completion";
import { type ReasonCount, reasonCounts } from "@/lib/domain/reason-counts";
import { RULES } from "@/lib/domain/rules/all";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { ReasonsReport } from "@/lib/schemas/report-reasons";
import { roomsSince, roomsStood } from "@/lib/storage/readiness-log";
import { addDays, localDate, timestampOf } from "@/lib/units/time";

/** What the rules said, how often and where, by check day. */
export const readReasons = (
  actor: Actor,
  query: { readonly from: string; readonly to: string },
  reading: Reading = appReading(),
): Promise<ReasonsReport> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const clock = checkClock(frame);
      const days = datesBetween(localDate(query.from), localDate(query.to), (date) => addDays(date, 1))
        .map((date) => checkDayOn(clock, date))
        .filter(({ from }) => from <= now);
      const [first, last] = [days[0], days.at(-1)];
      if (!first || !last) return { ...query, roomDays: 0, reasons: [], at: timestampOf(now) };
      const rooms = await roomsSince(tx, frame.scope.facilityId, first.from);
      const stood = await roomsStood(tx, frame.scope.facilityId, first.from, last.to);
      const logs = rooms.flatMap(({ id }) => {
        const log = stood.get(id);
        return log ? [{ roomId: id, log }] : [];
      });
      const names = new Map(rooms.map(({ id, name }) => [id, name]));
      return {
        ...query,
        roomDays: rooms.length * days.length,
        reasons: reasonCounts(logs, days, now).map((count) => lineOf(count, names)),
        at: timestampOf(now),
      };
    },
    reading,
  );

const KNOWN = new Map(RULES.map((rule) => [rule.id, rule]));

function lineOf(count: ReasonCount, names: ReadonlyMap<string, string>): ReasonsReport["reasons"][number] {
  const { rule, severity, roomDays, hours, hoursToCleared, byDay, byRoom } = count;
  return {
    rule,
    // A rule of an earlier version may be gone: its id is then all that is known.
    inBrief: KNOWN.get(rule)?.inBrief ?? rule,
    what: KNOWN.get(rule)?.what ?? rule,
    severity,
    roomDays,
    hours: Math.round(hours * 10) / 10,
    hoursToCleared: hoursToCleared === null ? null : Math.round(hoursToCleared * 10) / 10,
    days: [...byDay].map(([date, rooms]) => ({ date, rooms })).sort((left, right) => (left.date < right.date ? -1 : 1)),
    rooms: [...byRoom]
      .map(([roomId, { days, text }]) => ({ roomId, name: names.get(roomId) ?? roomId, days, text }))
      .sort((left, right) => right.days - left.days || (left.name < right.name ? -1 : 1)),
  };
}
