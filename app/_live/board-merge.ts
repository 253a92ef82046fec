import type { Board } from "@/lib/schemas/board";
import type { RowsEvent } from "@/lib/schemas/live";

export type Merged =
  /** The event's rows are in. */
  | { readonly state: "applied"; readonly board: Board }
  /** The board already knows more. */
  | { readonly state: "older" }
  /** Something between the board and the event was missed: only the whole board will do. */
  | { readonly state: "gap" };

/** Sets an event's rows into a board. */
export function mergeRows(board: Board, event: RowsEvent): Merged {
  if (isOlder(event, board)) return { state: "older" };
  const { sequence, at } = event;
  if (event.complete) return { state: "applied", board: { ...board, sequence, at, rooms: event.rooms } };
  if (event.after > board.sequence) return { state: "gap" };
  const changed = new Map(event.rooms.map((row) => [row.roomId, row]));
  const rooms = board.rooms.map((row) => changed.get(row.roomId) ?? row);
  const isUnknown = event.rooms.some(({ roomId }) => !board.rooms.some((row) => row.roomId === roomId));
  return isUnknown ? { state: "gap" } : { state: "applied", board: { ...board, sequence, at, rooms } };
}

/** By history, and for changes the clock made (which write none) by the server's time. */
export function isOlder(one: Pick<Board, "sequence" | "at">, other: Pick<Board, "sequence" | "at">): boolean {
  if (one.sequence !== other.sequence) return one.sequence < other.sequence;
  return Date.parse(one.at) < Date.parse(other.at);
}
