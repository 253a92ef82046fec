import { createHash } from "node:crypto";
import type { Board, BoardRow } from "@/lib/schemas/board";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

/** A board ready to send: serialised once, however many ask. */
export interface BoardSnapshot {
  readonly body: Uint8Array<ArrayBuffer>;
  readonly etag: string;
  readonly sequence: number;
}

/** The latest known board of one facility, row by row, and its serialised form. */
export class BoardState {
  #head: Omit<Board, "rooms">;
  readonly #rows: Map<string, BoardRow>;
  #snapshot: BoardSnapshot | null = null;

  constructor({ rooms, ...head }: Board) {
    this.#head = head;
    this.#rows = new Map(rooms.map((row) => [row.roomId, row]));
  }

  get sequence(): number {
    return this.#head.sequence;
  }

  get rooms(): BoardRow[] {
    return [...this.#rows.values()];
  }

  has(roomId: string): boolean {
    return this.#rows.has(roomId);
  }

  /** Puts newer rows in their places. The sequence never goes back: a slow read may end after a faster one. */
  put(rows: readonly BoardRow[], sequence: number, now: Instant): void {
    for (const row of rows) this.#rows.set(row.roomId, row);
    this.#head = { ...this.#head, sequence: Math.max(this.#head.sequence, sequence), at: timestampOf(now) };
    this.#snapshot = null;
  }

  /** Rooms whose judgement has ended by the clock: they may not be shown as judged any more. */
  dueAt(now: Instant): string[] {
    return this.rooms
      .filter(({ goodUntil }) => goodUntil !== null && instantOf(goodUntil) <= now)
      .map((row) => row.roomId);
  }

  /** When the clock will next overtake a row; null if it never will. */
  nextDue(): Instant | null {
    let next: Instant | null = null;
    for (const { goodUntil } of this.#rows.values()) {
      if (goodUntil === null) continue;
      const at = instantOf(goodUntil);
      if (next === null || at < next) next = at;
    }
    return next;
  }

  snapshot(): BoardSnapshot {
    this.#snapshot ??= serialise({ ...this.#head, rooms: this.rooms });
    return this.#snapshot;
  }
}

/** The tag follows the bytes, because rows also change by the clock, which writes no history entry. */
function serialise(board: Board): BoardSnapshot {
  const body = new TextEncoder().encode(JSON.stringify(board));
  const digest = createHash("sha256").update(body).digest("base64url").slice(0, 22);
  return { body, etag: `"${board.sequence}-${digest}"`, sequence: board.sequence };
}
