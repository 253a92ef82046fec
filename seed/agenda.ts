import type { Instant } from "@/lib/units/time";

/** What one person does: it yields the moment until which it waits, and goes on from there. */
export type Doing<Result = void> = AsyncGenerator<Instant, Result, undefined>;

interface Waiting {
  readonly until: Instant;
  /** Goes on, and says until when it then waits; null when it is done. */
  readonly goOn: () => Promise<Instant | null>;
}

/** Several people at work at once, in the order of time, so that the history reads as a morning does. */
export class Agenda {
  private readonly waiting: Waiting[] = [];

  /** Work that takes its time, to begin at that moment. */
  add(at: Instant, doing: Doing<unknown>): void {
    const goOn = async () => {
      const step = await doing.next();
      return step.done ? null : step.value;
    };
    this.put({ until: at, goOn });
  }

  /** Work of that one moment. */
  once(at: Instant, work: () => Promise<unknown>): void {
    const goOn = async () => {
      await work();
      return null;
    };
    this.put({ until: at, goOn });
  }

  private put(entry: Waiting): void {
    const behind = this.waiting.findIndex(({ until }) => until > entry.until);
    this.waiting.splice(behind < 0 ? this.waiting.length : behind, 0, entry);
  }

  /** Everything up to that moment. Who waits for a later one is left waiting, as somebody in the middle of a check is. */
  async run(until: Instant): Promise<void> {
    for (let next = this.waiting[0]; next && next.until <= until; next = this.waiting[0]) {
      this.waiting.shift();
      const waits = await next.goOn();
      if (waits !== null) this.put({ until: waits, goOn: next.goOn });
    }
  }
}
