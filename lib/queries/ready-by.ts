import type { Actor } from "@/lib/auth/actor";
import { type CheckDay, checkDayOn } from "@/lib/domain/check-day";
import { datesBetween } from "@/lib/domain/completion";
import { roomMorning, type Stood, stoodAt } from "@/lib/domain/readiness-log";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { ReadyByMorning, ReadyByReport } from "@/lib/schemas/report-ready-by";
import { type CompletionFacts, completionFacts } from "@/lib/storage/completion";
import { roomsStood } from "@/lib/storage/readiness-log";
import { addDays, type Instant, instantAt, instantOf, localDate, localTime, timestampOf } from "@/lib/units/time";

type RoomLine = ReadyByMorning["rooms"][number];

/** For each morning, when each room that had a first case could start. */
export const readReadyBy = (
  actor: Actor,
  query: { readonly from: string; readonly to: string },
  reading: Reading = appReading(),
): Promise<ReadyByReport> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const clock = checkClock(frame);
      const { facilityId } = frame.scope;
      const days = datesBetween(localDate(query.from), localDate(query.to), (date) => addDays(date, 1)).map((date) =>
        checkDayOn(clock, date),
      );
      const [first, last] = [days[0], days.at(-1)];
      if (!first || !last) return { ...query, mornings: [], at: timestampOf(now) };
      const facts = await completionFacts(tx, facilityId, first.from, last.to, query);
      const stood = await roomsStood(tx, facilityId, first.from, last.to);
      const mornings = days.map((day) => morningOf(day, facts, stood, clock.timeZone, now));
      return { ...query, mornings, at: timestampOf(now) };
    },
    reading,
  );

function morningOf(
  day: CheckDay,
  facts: CompletionFacts,
  stood: ReadonlyMap<string, readonly Stood[]>,
  zone: string,
  now: Instant,
): ReadyByMorning {
  const lists = new Map(facts.lists.filter(({ date }) => date === day.date).map((list) => [list.room_id, list]));
  const rooms = facts.rooms.flatMap((room) => {
    const time = lists.get(room.id)?.first_case ?? null;
    if (time === null) return [];
    const firstCase = instantAt(zone, day.date, localTime(time));
    return wasClosed(facts, room.id, firstCase) ? [] : [lineOf(room, stood.get(room.id) ?? [], firstCase, day, now)];
  });
  const count = (outcome: RoomLine["outcome"]) => rooms.filter((room) => room.outcome === outcome).length;
  return {
    date: day.date,
    running: rooms.length,
    inTime: count("in-time"),
    late: count("late"),
    never: count("never"),
    notYet: count("not-yet"),
    medianMinutesBefore: median(rooms.flatMap(({ minutesBefore }) => (minutesBefore === null ? [] : [minutesBefore]))),
    rooms,
  };
}

const wasClosed = ({ occupancy }: CompletionFacts, roomId: string, firstCase: Instant): boolean =>
  occupancy.some(
    ({ room_id, state, from, to }) =>
      room_id === roomId &&
      state === "closed" &&
      instantOf(from) <= firstCase &&
      (to === null || instantOf(to) > firstCase),
  );

function lineOf(
  { id, name, suite }: CompletionFacts["rooms"][number],
  log: readonly Stood[],
  firstCase: Instant,
  day: CheckDay,
  now: Instant,
): RoomLine {
  const { readyAt, outcome, minutesBefore } = roomMorning(log, firstCase, day, now);
  const looked = stoodAt(log, Math.min(firstCase, now) as Instant);
  return {
    roomId: id,
    name,
    suite,
    firstCase: timestampOf(firstCase),
    readyAt: readyAt === null ? null : timestampOf(readyAt),
    outcome,
    minutesBefore,
    reason: outcome === "in-time" ? null : (looked?.reasons[0]?.text ?? null),
  };
}

function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((left, right) => left - right);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? 0) + upper) / 2;
}
