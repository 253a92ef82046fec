import { wallRowOf } from "@/lib/queries/wall";
import type { BoardRow } from "@/lib/schemas/board";
import type { WallRow } from "@/lib/schemas/wall";
import { aRow } from "./board-rows";

/** A room of the wall, made as the server makes it from a room of the board. */
export const aWallRow = (change: Partial<BoardRow> = {}): WallRow => wallRowOf(aRow(change));

/** That many rooms of one suite, walked in the order of their numbers from `first` on. */
export function aSuite(suite: string, count: number, first = 1): WallRow[] {
  return Array.from({ length: count }, (_, index) =>
    aWallRow({ roomId: `${suite}-${index}`, name: `${suite} ${index + 1}`, suite, walkingOrder: first + index }),
  );
}
