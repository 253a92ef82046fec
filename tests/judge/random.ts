import { dice } from "@/lib/domain/dice";

/** Numbers by a seed: the same document every time for the same number, so that one that fails can be looked at again. */
export class Random {
  /** From 0 up to, not including, 1. */
  readonly next: () => number;

  constructor(seed: number) {
    this.next = dice(seed * 2_654_435_761).next;
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  /** How much goes wrong in this document: nothing (0) to everything that can (1). */
  trouble = 1;

  mishap(share: number): boolean {
    return this.chance(share * this.trouble);
  }

  whole(least: number, most: number): number {
    return least + Math.floor(this.next() * (most - least + 1));
  }

  one<Thing>(of: readonly Thing[]): Thing {
    const found = of[this.whole(0, of.length - 1)];
    if (found === undefined) throw new Error("nothing to choose from");
    return found;
  }

  some<Thing>(of: readonly Thing[], share = 0.5): Thing[] {
    return of.filter(() => this.chance(share));
  }

  list<Thing>(most: number, make: (order: number) => Thing): Thing[] {
    return Array.from({ length: this.whole(0, most) }, (_, order) => make(order));
  }

  shuffled<Thing>(of: readonly Thing[]): Thing[] {
    const left = [...of];
    return of.map(() => left.splice(this.whole(0, left.length - 1), 1)[0] as Thing);
  }
}
