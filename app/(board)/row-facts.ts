import type { BoardRow } from "@/lib/schemas/board";
import { instantOf, type Timestamp } from "@/lib/units/time";

/**
 * When a ready room stops being ready by the clock alone, if that is before its list ends. At the first case an owed provider's
 * check only changes its words, so that moment is not shown.
 */
export function changesByClock(row: BoardRow): Timestamp | null {
  if (row.goodUntil === null || (row.state !== "ready" && row.state !== "ready-limited")) return null;
  if (!row.marks.provider && row.goodUntil === row.firstCase) return null;
  if (row.listEnd === null || instantOf(row.goodUntil) >= instantOf(row.listEnd)) return null;
  return row.goodUntil;
}

/** What has to be done, unless the reason above it says just that already. */
export function workTitle(row: BoardRow): string | null {
  const title = row.work[0]?.title ?? null;
  if (title === null || row.headline === null) return title;
  const [said, asked] = [row.headline.toLowerCase(), title.toLowerCase()];
  return asked === said || asked.endsWith(`: ${said}`) ? null : title;
}
