import { type LocalDate, weekday } from "@/lib/units/time";
import { exampleFiles } from "./department";
import { chanceFrom } from "./random";

/** One room's list of one day. */
export interface ListLine {
  readonly room: string;
  readonly firstCase: string;
  readonly ends: string;
  readonly needs: string;
  readonly setUpMinutes: string;
}

/** Which rooms run at the weekend: one for emergencies, and where children are born at any hour. */
const AT_WEEKENDS = new Set(["OR 1", "LD 1", "LD 2", "Theatre 1"]);

export const isWeekend = (date: LocalDate): boolean => weekday(date) === 0 || weekday(date) === 6;

/** The list of a day: the example's, with a room or two less and first cases that vary by a quarter of an hour. */
export function listOf(folder: string, date: LocalDate): ListLine[] {
  const chance = chanceFrom(`${folder} ${date}`);
  const lines = exampleLines(folder);
  if (isWeekend(date)) return lines.filter(({ room }) => AT_WEEKENDS.has(room));
  const left = new Set(lines.length < 10 ? [] : [chance.pick(lines).room, chance.pick(lines).room]);
  return lines
    .filter(({ room }) => !left.has(room))
    .map((line) => ({ ...line, firstCase: shifted(line.firstCase, chance.pick([0, 0, 0, 15, -15])) }));
}

export function exampleLines(folder: string): ListLine[] {
  const [, ...rows] = (exampleFiles(folder).list ?? "").trim().split("\n");
  return rows.map((row) => {
    const [, room = "", firstCase = "", ends = "", needs = "", setUpMinutes = ""] = row.split(",");
    return { room, firstCase, ends, needs, setUpMinutes };
  });
}

export function listFile(date: LocalDate | "today", lines: readonly ListLine[]): string {
  const rows = lines.map((line) =>
    [date, line.room, line.firstCase, line.ends, line.needs, line.setUpMinutes].join(","),
  );
  return `${["date,room,first case,ends,needs,set-up minutes", ...rows].join("\n")}\n`;
}

function shifted(time: string, minutes: number): string {
  const [hour = 0, minute = 0] = time.split(":").map(Number);
  const all = hour * 60 + minute + minutes;
  return `${String(Math.floor(all / 60)).padStart(2, "0")}:${String(all % 60).padStart(2, "0")}`;
}
