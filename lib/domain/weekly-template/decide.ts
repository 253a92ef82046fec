import { done, refused } from "@/lib/domain/outcome";
import type { RoomKnown } from "@/lib/domain/room/model";
import { type DayAsked, type ListAsked, WEEKDAY_NAMES } from "@/lib/domain/weekly-template/model";

/** What is wrong with a list's times; null when nothing is. */
export function wrongTimes({
  firstCase,
  ends,
}: Pick<ListAsked, "firstCase" | "ends">): { readonly field: "firstCase" | "ends"; readonly message: string } | null {
  if (firstCase === null && ends !== null)
    return { field: "firstCase", message: `A list that ends at ${ends} needs the time of its first case.` };
  if (firstCase !== null && ends !== null && ends <= firstCase)
    return { field: "ends", message: `The list must end after its first case at ${firstCase}, on the same day.` };
  return null;
}

/** The week of some rooms, as a whole: weekdays that are not named lose what was said of them. */
export function decideWeek(rooms: readonly RoomKnown[], roomIds: readonly string[], days: readonly DayAsked[]) {
  const named = roomIds.map((roomId) => rooms.find(({ id, retired }) => id === roomId && !retired));
  const unknown = named.indexOf(undefined);
  if (unknown >= 0)
    return refused("not-found", "There is no room with this id in your facility.", `roomIds.${unknown}`);
  for (const [place, day] of days.entries()) {
    if (days.findIndex(({ weekday }) => weekday === day.weekday) !== place)
      return refused(
        "invalid",
        `${WEEKDAY_NAMES[day.weekday]} is named twice. Keep one of them.`,
        `days.${place}.weekday`,
      );
    const wrong = day.closed ? null : wrongTimes(day);
    if (wrong)
      return refused("invalid", `${WEEKDAY_NAMES[day.weekday]}: ${wrong.message}`, `days.${place}.${wrong.field}`);
  }
  return done({ names: named.flatMap((room) => (room ? [room.name] : [])) });
}
