import { countText } from "@/app/_parts/format";
import { listed } from "@/lib/domain/wording";
import type { BoardRow } from "@/lib/schemas/board";

/** A room whose hours and needs today come from the weekly template, because nobody entered or imported a list for it. */
export const isByTemplate = (row: BoardRow): boolean => row.listFrom === "week" && isRunning(row);

const isRunning = ({ firstCase, occupancy }: BoardRow): boolean => firstCase !== null && occupancy.state !== "closed";

const MOST_NAMED = 6;

/** Which rooms run by the weekly template, said once and by name where they are few; null when none does. */
export function templateText(rooms: readonly BoardRow[]): string | null {
  const by = rooms.filter(isByTemplate);
  if (by.length === 0) return null;
  if (by.length === rooms.filter(isRunning).length)
    return "No list was entered for today: every room runs by the weekly template.";
  const names = by.map(({ name }) => name);
  const who = by.length > MOST_NAMED ? countText(by.length, "room") : listed(names, MOST_NAMED);
  return `${who} ${by.length === 1 ? "runs" : "run"} by the weekly template.`;
}

/** Whether the rows have to say it for themselves: more rooms than the line names, and not all of them. */
export function rowsSayTemplate(rooms: readonly BoardRow[]): boolean {
  const by = rooms.filter(isByTemplate).length;
  return by > MOST_NAMED && by < rooms.filter(isRunning).length;
}
