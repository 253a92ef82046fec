import type { Board, BoardRow } from "@/lib/schemas/board";

/** Where the live board gets its rows from. */
export interface BoardSource {
  /** The whole board; its `sequence` must not be newer than its rows. */
  readBoard(facilityId: string): Promise<Board>;
  /** Some rooms as they are now; one that the clock has overtaken is judged for the answer. */
  readRows(facilityId: string, roomIds: readonly string[]): Promise<readonly BoardRow[]>;
  /** Stores the judgements, and the tasks that follow, of whatever the clock has overtaken. */
  rejudgeDue(facilityId: string): Promise<void>;
}
