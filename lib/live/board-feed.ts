import type { BoardRow } from "@/lib/schemas/board";
import type { RowsEvent } from "@/lib/schemas/live";
import { type Instant, timestampOf } from "@/lib/units/time";
import { type BoardSnapshot, BoardState } from "./board-state";
import type { Change } from "./notice";
import { Pending } from "./pending";
import type { BoardSource } from "./source";
import { WakeTimer } from "./wake-timer";

export interface FeedOptions {
  facilityId: string;
  source: BoardSource;
  now: () => Instant;
  /** Sends to the open streams of the facility: what changed, and the whole as it then stands. */
  publish: (event: RowsEvent, all: readonly BoardRow[]) => void;
  isWatched: () => boolean;
  report: (problem: unknown) => void;
}

const RETRY_AFTER_MS = 1_000;
const MOST_READS = 5;

/**
 * One facility's board, kept in step with the database. Notices say which rooms to read again; however many arrive while a read is
 * under way, one read follows. Whoever asks for the board waits for everything that was heard of before he asked.
 */
export class BoardFeed {
  readonly #options: FeedOptions;
  readonly #wake: WakeTimer;
  #state: BoardState | null = null;
  #pending = Pending.all();
  /** Each thing heard of gets a number; what is read is known up to one. */
  #heard = 1;
  #read = 0;
  #noticed = -1;
  #flight: Promise<void> | null = null;
  #retry: NodeJS.Timeout | undefined;
  #readingOn = false;
  #closed = false;
  #behindSince: number | null = null;

  constructor(options: FeedOptions) {
    this.#options = options;
    this.#wake = new WakeTimer(options.now, () => this.#onWake());
  }

  get sequence(): number {
    return this.#state?.sequence ?? -1;
  }

  get rooms(): readonly BoardRow[] {
    return this.#state?.rooms ?? [];
  }

  /** How long, in milliseconds, something heard of has waited to be read. */
  behindFor(): number {
    return this.#behindSince === null ? 0 : performance.now() - this.#behindSince;
  }

  changed({ sequence, holders, all }: Change): void {
    this.#noticed = Math.max(this.#noticed, sequence);
    this.#pending.add(holders);
    // A room this board has never seen is new: only the whole board knows its place.
    if (all || holders.some(({ kind, id }) => kind === "room" && this.#state?.has(id) === false))
      this.#pending.addAll();
    this.#hear();
  }

  /** Something may have been missed. */
  lostTrack(): void {
    this.#pending.addAll();
    this.#hear();
  }

  async snapshot(): Promise<BoardSnapshot> {
    await this.settle();
    if (!this.#state) throw new Error(`the board of facility ${this.#options.facilityId} was closed while it was read`);
    return this.#state.snapshot();
  }

  /** Returns once everything heard of until now has been read and no row is past its good-until. */
  async settle(): Promise<void> {
    for (let attempt = 0; attempt < MOST_READS; attempt += 1) {
      const due = this.#due();
      if (due.length > 0) this.#overtaken(due);
      const wanted = this.#heard;
      while (this.#read < wanted) await this.#fly();
      // A read that took its time may itself be overtaken.
      if (this.#due().length === 0) return;
    }
    throw new Error(`rooms ${this.#due().join(", ")} are past their good-until however often they are judged`);
  }

  close(): void {
    this.#closed = true;
    this.#wake.stop();
    clearTimeout(this.#retry);
  }

  #hear(): void {
    this.#heard += 1;
    this.#behindSince ??= performance.now();
    if (this.#options.isWatched()) this.#readOn();
  }

  /** Rooms on this board that the clock has overtaken. */
  #due(): string[] {
    return this.#state?.dueAt(this.#options.now()) ?? [];
  }

  #overtaken(roomIds: readonly string[]): void {
    this.#pending.add(roomIds.map((id) => ({ kind: "room", id })));
    this.#hear();
  }

  #onWake(): void {
    const due = this.#due();
    // Nobody looks: whoever asks next finds the rows overtaken and has them judged then.
    if (!this.#options.isWatched()) return;
    if (due.length > 0) this.#overtaken(due);
    else this.#wake.setFor(this.#state?.nextDue() ?? null);
  }

  /** Reads in the background. A failure is told once and tried again; meanwhile no beat leaves, so that no screen believes itself live. */
  #readOn(): void {
    if (this.#readingOn || this.#closed) return;
    this.#readingOn = true;
    this.#readAllHeard()
      .catch((problem: unknown) => {
        this.#options.report(problem);
        clearTimeout(this.#retry);
        if (!this.#closed) this.#retry = setTimeout(() => this.#readOn(), RETRY_AFTER_MS);
      })
      .finally(() => {
        this.#readingOn = false;
      });
  }

  async #readAllHeard(): Promise<void> {
    while (this.#read < this.#heard && !this.#closed) await this.#fly();
  }

  #fly(): Promise<void> {
    this.#flight ??= this.#readPending().finally(() => {
      this.#flight = null;
    });
    return this.#flight;
  }

  async #readPending(): Promise<void> {
    const { heard, pending, noticed } = { heard: this.#heard, pending: this.#pending, noticed: this.#noticed };
    const before = this.sequence;
    this.#pending = new Pending();
    try {
      await this.#storeOvertaken(pending);
      const state = await this.#refresh(pending, noticed);
      this.#read = heard;
      this.#behindSince = this.#heard > heard ? performance.now() : null;
      this.#publish(state, pending, before);
      if (!this.#closed) this.#wake.setFor(state.nextDue());
    } catch (problem) {
      this.#pending.merge(pending);
      throw problem;
    }
  }

  /**
   * Only the stored copy, and the tasks, wait for this: a reader judges an overtaken row for himself. With the whole board to be read it is
   * asked for in any case, because other causes than the clock, such as a sister facility's change of a model, are known to storage alone.
   */
  async #storeOvertaken({ everything }: Pending): Promise<void> {
    const { source, facilityId, report } = this.#options;
    if (!everything && this.#due().length === 0) return;
    await source.rejudgeDue(facilityId).catch(report);
  }

  async #refresh(pending: Pending, noticed: number): Promise<BoardState> {
    const { source, facilityId, now } = this.#options;
    if (pending.everything || !this.#state) {
      pending.addAll();
      this.#state = new BoardState(await source.readBoard(facilityId));
      this.#state.put([], noticed, now());
    } else {
      const rows = pending.rooms.length > 0 ? await source.readRows(facilityId, pending.rooms) : [];
      this.#state.put(rows, noticed, now());
    }
    return this.#state;
  }

  #publish(state: BoardState, { everything, rooms: named, holders }: Pending, before: number): void {
    const { facilityId, now, publish, isWatched } = this.#options;
    if (!isWatched()) return;
    const rooms = everything ? state.rooms : state.rooms.filter(({ roomId }) => named.includes(roomId));
    const event = {
      facility: facilityId,
      sequence: state.sequence,
      after: before,
      at: timestampOf(now()),
      holders,
      complete: everything,
      rooms,
    };
    publish(event, state.rooms);
  }
}
