import { NEED_WORDS } from "@/app/_parts/words";
import { WEEKDAY_NAMES, WEEKDAYS } from "@/lib/domain/weekly-template/model";
import type { WeekView } from "@/lib/schemas/weekly";

type Room = WeekView["rooms"][number];
type ShownList = NonNullable<Room["list"]>;

/** "07:15 to 15:30, sedation" */
export function listText({ firstCase, ends, needs }: Pick<ShownList, "firstCase" | "ends" | "needs">): string {
  const times = firstCase === null ? "open, no first case" : `${firstCase}${ends === null ? "" : ` to ${ends}`}`;
  return [times, ...needs.map((need) => NEED_WORDS[need])].join(", ");
}

function dayText(days: Room["days"], weekday: number): string {
  const day = days.find((one) => one.weekday === weekday);
  if (!day) return "not said";
  return day.closed ? "closed" : listText(day);
}

const short = (weekday: (typeof WEEKDAYS)[number]) => WEEKDAY_NAMES[weekday].slice(0, 3);

/** Days that are alike stand together: "Mon to Fri 07:30 to 15:30", "Sat, Sun closed". */
export function weekTexts({ days }: Pick<Room, "days">): string[] {
  if (days.length === 0) return ["nothing said of any day"];
  const runs: { text: string; days: (typeof WEEKDAYS)[number][] }[] = [];
  for (const weekday of WEEKDAYS) {
    const text = dayText(days, weekday);
    const last = runs.at(-1);
    if (last?.text === text) last.days.push(weekday);
    else runs.push({ text, days: [weekday] });
  }
  return runs.map((run) => `${daysText(run.days)} ${run.text}`);
}

function daysText(days: readonly (typeof WEEKDAYS)[number][]): string {
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return "";
  return days.length > 2 ? `${short(first)} to ${short(last)}` : days.map(short).join(", ");
}
