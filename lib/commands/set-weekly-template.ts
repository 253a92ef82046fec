import { command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { decideWeek, wrongTimes } from "@/lib/domain/weekly-template/decide";
import { type DayAsked, type ListAsked, WEEKDAY_NAMES } from "@/lib/domain/weekly-template/model";
import { listed } from "@/lib/domain/wording";
import { setListReply, setListRequest, setWeeklyTemplateReply, setWeeklyTemplateRequest } from "@/lib/schemas/weekly";
import { putList, putWeek } from "@/lib/storage/lists";
import { loadSetUp } from "@/lib/storage/set-up";
import { type LocalTime, localTime } from "@/lib/units/time";

interface ListGiven extends Omit<ListAsked, "firstCase" | "ends"> {
  readonly firstCase: string | null;
  readonly ends: string | null;
}

const timeOrNull = (text: string | null): LocalTime | null => (text === null ? null : localTime(text));
const listOf = (given: ListGiven): ListAsked => ({
  firstCase: timeOrNull(given.firstCase),
  ends: timeOrNull(given.ends),
  needs: [...new Set(given.needs)].sort(),
  setUpMinutes: given.setUpMinutes,
});

/** What the weekdays usually ask of some rooms, from today on. Days with a list of their own keep it. */
export const setWeeklyTemplate = command({
  name: "set-weekly-template",
  summary: "Set the weekly template of rooms: for each weekday the list that holds when the day has none of its own.",
  schema: setWeeklyTemplateRequest,
  reply: setWeeklyTemplateReply,
  locks: ({ roomIds }) => ({ rooms: roomIds }),
  load: (tx, _input, { begun }) => loadSetUp(tx, begun.scope),
  decide: ({ rooms }, { roomIds, days }) => {
    const asked = days.map(
      (day): DayAsked => (day.closed ? day : { weekday: day.weekday, closed: false, ...listOf(day) }),
    );
    const week = decideWeek(rooms, roomIds, asked);
    return week.ok ? done({ ...week.value, asked }) : week;
  },
  apply: async (tx, { names, asked }, { roomIds }, context) => {
    const from = checkDayAt(checkClock(context.begun), context.now).date;
    await putWeek(tx, context.begun.scope.facilityId, [...new Set(roomIds)], asked, from);
    return {
      reply: { from, rooms: names.length },
      note: {
        text: `Set the weekly template of ${listed(names)}`,
        details: asked.map(said),
        data: { roomIds, days: asked, from },
      },
    };
  },
});

function said(day: DayAsked): string {
  const name = WEEKDAY_NAMES[day.weekday];
  return day.closed ? `${name}: closed` : `${name}: ${listSaid(day)}`;
}

const listSaid = ({ firstCase, ends, needs, setUpMinutes }: ListAsked): string =>
  [
    firstCase === null ? "open, no first case" : `first case ${firstCase}`,
    ends === null ? "" : `until ${ends}`,
    needs.length === 0 ? "needs unknown" : needs.join(", ").replaceAll("-", " "),
    setUpMinutes === 0 ? "" : `${setUpMinutes} min to set up`,
  ]
    .filter(Boolean)
    .join(", ");

/** Today's list of one room by hand. It wins over the weekly template; null takes it away again. */
export const setList = command({
  name: "set-list",
  summary: "Enter today's list of one room, or go back to the weekly template.",
  schema: setListRequest,
  reply: setListReply,
  locks: ({ roomId }) => ({ rooms: [roomId] }),
  load: async (_tx, { roomId }, _context, holders) =>
    (await holders()).find(({ kind, id }) => kind === "room" && id === roomId)?.evidence.room ?? null,
  decide: (room, { list }) => {
    if (!room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
    const asked = list === null ? null : listOf(list);
    const wrong = asked === null ? null : wrongTimes(asked);
    return wrong ? refused("invalid", wrong.message, `list.${wrong.field}`) : done({ room, asked });
  },
  apply: async (tx, { room, asked }, { roomId }, context) => {
    const { date } = checkDayAt(checkClock(context.begun), context.now);
    await putList(tx, context.begun.scope, roomId, date, asked, context.now);
    return {
      reply: { roomId, date },
      note: {
        text:
          asked === null
            ? `Back to the weekly template for today: ${room.name}`
            : `Entered today's list of ${room.name}: ${listSaid(asked)}`,
        data: { roomId, date, list: asked },
      },
    };
  },
});
