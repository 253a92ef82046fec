import { dice } from "@/lib/domain/dice";

/** Chance that comes out the same every time: the invented hospital must be the same on every machine. */
export interface Chance {
  /** From 0 up to, but not including, 1. */
  next(): number;
  between(least: number, most: number): number;
  whole(least: number, most: number): number;
  /** True in that share of all times. */
  once(share: number): boolean;
  pick<Value>(from: readonly Value[]): Value;
}

/** Enough for invented readings, and for nothing secret. */
export function chanceFrom(text: string): Chance {
  const { next } = dice(seedOf(text));
  const between = (least: number, most: number) => least + next() * (most - least);
  return {
    next,
    between,
    whole: (least, most) => Math.floor(between(least, most + 1)),
    once: (share) => next() < share,
    pick: (from) => {
      const picked = from[Math.floor(next() * from.length)];
      if (picked === undefined) throw new RangeError("there is nothing to pick from");
      return picked;
    },
  };
}

/** FNV-1a, 32 bits. */
function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const character of text) hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193);
  return hash | 0;
}
