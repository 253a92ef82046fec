import type { Actor } from "@/lib/auth/actor";
import { type CheckClock, type CheckDay, checkDayOn } from "@/lib/domain/check-day";
import { completionCount, completionPercent, completionState, datesBetween } from "@/lib/domain/completion";
import { itemOf } from "@/lib/domain/items";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { CompletionReport } from "@/lib/schemas/report";
import { type CompletionFacts, completionFacts } from "@/lib/storage/completion";
import {
  addDays,
  type Instant,
  instant,
  instantAt,
  instantOf,
  localDate,
  localTime,
  timestampOf,
} from "@/lib/units/time";

type Cell = CompletionReport["rooms"][number]["cells"][number];

/** Check completion by room and check day. */
export const readCompletion = (
  actor: Actor,
  query: { readonly from: string; readonly to: string },
  reading: Reading = appReading(),
): Promise<CompletionReport> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const clock = checkClock(frame);
      const days = datesBetween(localDate(query.from), localDate(query.to), (date) => addDays(date, 1)).map((date) =>
        checkDayOn(clock, date),
      );
      const [first, last] = [days[0], days.at(-1)];
      if (!first || !last) return { ...query, rooms: [], done: 0, due: 0, percent: null };
      return reportOf(
        query,
        await completionFacts(tx, frame.scope.facilityId, first.from, last.to, query),
        days,
        clock,
        now,
      );
    },
    reading,
  );

function reportOf(
  query: { readonly from: string; readonly to: string },
  facts: CompletionFacts,
  days: readonly CheckDay[],
  clock: CheckClock,
  now: Instant,
): CompletionReport {
  const rooms = facts.rooms.map(({ id, name, suite }) => {
    const cells = days.map((day) => cellOf(factsOf(facts, id), day, clock, now));
    return { roomId: id, name, suite, cells, ...completionCount(cells.map(({ state }) => state)) };
  });
  const total = completionCount(rooms.flatMap(({ cells }) => cells.map(({ state }) => state)));
  return { ...query, rooms, ...total, percent: completionPercent(total) };
}

/** The facts of one room. */
function factsOf(facts: CompletionFacts, roomId: string) {
  const ofRoom = <Row extends { readonly room_id: string }>(rows: readonly Row[]) =>
    rows.filter(({ room_id }) => room_id === roomId);
  return {
    lists: ofRoom(facts.lists),
    checks: ofRoom(facts.checks),
    failures: ofRoom(facts.failures),
    swaps: ofRoom(facts.swaps),
    occupancy: ofRoom(facts.occupancy),
  };
}

function cellOf(facts: ReturnType<typeof factsOf>, day: CheckDay, clock: CheckClock, now: Instant): Cell {
  const list = facts.lists.find(({ date }) => date === day.date);
  const within = (at: string) => instantOf(at) >= day.from && instantOf(at) < day.to;
  const firstCase = list?.first_case ? instantAt(clock.timeZone, day.date, localTime(list.first_case)) : null;
  const signed = facts.checks.filter(({ performed, started_at }) => performed !== null && within(started_at));
  const check = signed[0];
  const confirmed = signed.find((one) => one.confirmed !== null)?.confirmed ?? null;
  const checkedAt = check?.performed ? instantOf(check.performed.at) : null;
  const state = completionState({
    runs: list !== undefined || facts.occupancy.some(({ state, from }) => state === "in-use" && within(from)),
    closed: facts.occupancy.some(
      (one) =>
        one.state === "closed" &&
        within(one.from) &&
        (one.to === null || instantOf(one.to) >= (firstCase ?? instant(instantOf(one.from) + 1))),
    ),
    firstCase,
    checkedAt,
    over: now >= day.to || (firstCase !== null && now > firstCase),
  });
  return {
    date: day.date,
    state,
    equipmentAt: checkedAt === null ? null : timestampOf(checkedAt),
    equipmentBy: check?.performed?.name ?? null,
    providerAt: confirmed ? timestampOf(instantOf(confirmed.at)) : null,
    providerBy: confirmed?.name ?? null,
    firstCase: firstCase === null ? null : timestampOf(firstCase),
    failures: facts.failures.filter(({ observed_at }) => within(observed_at)).map(({ item }) => itemOf(item).name),
    swaps: facts.swaps.filter(({ at }) => within(at)).map(({ serial, position }) => `${serial} on yoke ${position}`),
  };
}
