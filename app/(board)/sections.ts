import type { Readiness } from "@/lib/domain/judgement";
import { needsAttention } from "@/lib/domain/morning";
import { naturalOrder } from "@/lib/domain/natural-order";
import type { BoardRow } from "@/lib/schemas/board";
import { isProblem, isToCheck } from "./filter";

export interface BoardSection {
  readonly id: "attention" | "to-check" | "ready" | "closed" | "last-known";
  readonly title: string;
  readonly rooms: readonly BoardRow[];
}

/** Problems on top in order of consequence, then what is to check, then the rooms that can start in the order of their names; closed rooms last and quiet. Without a connection no room is sorted by a state that may be over. */
export function boardSections(rooms: readonly BoardRow[], live: boolean): BoardSection[] {
  if (!live) return [{ id: "last-known", title: "Last known", rooms: byName(rooms) }];
  const open = rooms.filter((row) => row.occupancy.state !== "closed");
  const sections: BoardSection[] = [
    { id: "attention", title: "Cannot start", rooms: byConsequence(open.filter(isProblem)) },
    { id: "to-check", title: "To check", rooms: byName(open.filter(isToCheck)) },
    { id: "ready", title: "Ready or in use", rooms: byName(open.filter((row) => !needsAttention(row))) },
    { id: "closed", title: "Closed today", rooms: byName(rooms.filter((row) => row.occupancy.state === "closed")) },
  ];
  return sections.filter((section) => section.rooms.length > 0);
}

const byName = (rooms: readonly BoardRow[]) => [...rooms].sort((left, right) => naturalOrder(left.name, right.name));

/** What stops a room for sure, then what somebody has to allow, then what only nobody has looked at yet. */
const RANK: Record<Readiness, number> = {
  "do-not-use": 1,
  ready: 2,
  "ready-limited": 2,
  "to-check": 3,
  "out-of-service": 4,
};
const rank = (row: BoardRow): number => (row.whenInUse === "act-now" ? 0 : RANK[row.state]);
const byConsequence = (rooms: readonly BoardRow[]) => byName(rooms).sort((left, right) => rank(left) - rank(right));
