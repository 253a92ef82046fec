import type { QueryClient } from "@tanstack/react-query";
import type { Board } from "@/lib/schemas/board";
import { isOlder, mergeRows } from "./board-merge";
import type { ChangeEvent, LiveStore } from "./live-store.client";

export const boardKey = (facilityId: string) => ["board", facilityId] as const;

/** Many boards find a gap in the same moment (the server came back): they ask spread over this time. */
const SPREAD_MS = 800;
/** A read that failed, or came too early, is tried again within this time. */
const AFTER_FAILURE_MS = 2_000;

/** Keeps the cached board in step with the stream: rows are set in as they arrive, the whole is read again only after a gap. */
export class BoardKeeper {
  readonly #store: Pick<LiveStore, "hear" | "recentRows">;
  readonly #queries: QueryClient;
  readonly #key: ReturnType<typeof boardKey>;
  #asking: ReturnType<typeof setTimeout> | undefined;
  #missingSince: number | null = null;
  /** The newest entry of the history that the stream has spoken of. */
  #heardOf = -1;
  #isKeeping = false;

  constructor(store: Pick<LiveStore, "hear" | "recentRows">, queries: QueryClient, facilityId: string) {
    this.#store = store;
    this.#queries = queries;
    this.#key = boardKey(facilityId);
  }

  start(): () => void {
    this.#isKeeping = true;
    const deaf = this.#store.hear((event) => this.#take(event));
    return () => {
      this.#isKeeping = false;
      deaf();
      clearTimeout(this.#asking);
      this.#asking = undefined;
    };
  }

  /** How long, in milliseconds, the board on screen has been known to lack something. */
  missingFor(): number {
    return this.#missingSince === null ? 0 : performance.now() - this.#missingSince;
  }

  /** A board just read may be older than what the stream has brought meanwhile. */
  bringUpToDate(read: Board): Board {
    let board = read;
    for (const event of this.#store.recentRows()) {
      const merged = mergeRows(board, event);
      if (merged.state === "applied") board = merged.board;
    }
    if (board.sequence < this.#heardOf) this.readAgain();
    else this.#missingSince = null;
    return board;
  }

  /** A page may bring a newer board than the cache holds, or an older one (the browser's way back). */
  offer(offered: Board): void {
    const held = this.#queries.getQueryData<Board>(this.#key);
    const newest = held && !isOlder(held, offered) ? held : offered;
    const board = this.bringUpToDate(newest);
    if (board !== held) this.#queries.setQueryData(this.#key, board);
  }

  readAgain(within = SPREAD_MS): void {
    this.#missingSince ??= performance.now();
    this.#asking ??= setTimeout(() => void this.#read(), Math.random() * within);
  }

  async #read(): Promise<void> {
    await this.#queries.refetchQueries({ queryKey: this.#key }, { cancelRefetch: false });
    this.#asking = undefined;
    if (this.#missingSince !== null && this.#isKeeping) this.readAgain(AFTER_FAILURE_MS);
  }

  #take(event: ChangeEvent): void {
    this.#heardOf = Math.max(this.#heardOf, event.data.sequence);
    const board = this.#queries.getQueryData<Board>(this.#key);
    if (!board) return;
    const merged = event.name === "rows" ? mergeRows(board, event.data) : null;
    if (merged?.state === "applied") this.#queries.setQueryData(this.#key, merged.board);
    else if (merged?.state === "gap" || event.data.sequence > board.sequence) this.readAgain();
  }
}
