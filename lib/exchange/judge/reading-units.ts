import type { ItemId } from "@/lib/domain/items";
import { ALL_ITEMS } from "@/lib/domain/ready-made-procedures/all-items";
import { RULES } from "@/lib/domain/rules/all";
import { quantity, UNITS, type Unit, valueIn } from "@/lib/units/quantity";

/** In which units an item can be read, as its question and the rules that judge it say. */
const byItem = new Map<ItemId, readonly Unit[] | null>();

/** Null for an item that nobody measures. */
export function unitsOf(item: ItemId): readonly Unit[] | null {
  const known = byItem.get(item);
  if (known !== undefined) return known;
  const found = askedIn(item) ?? judgedIn(item);
  byItem.set(item, found);
  return found;
}

/** Times are read in any of these, though a limit in one of them is not met by a value in another. */
const TIMES: readonly Unit[] = ["s", "min", "h", "d"];

/** Every unit that measures the same thing and can be compared. */
export const unitsLike = (unit: Unit): readonly Unit[] =>
  UNITS.filter((other) => valueIn(quantity(1, other), unit) !== null);

function askedIn(item: ItemId): readonly Unit[] | null {
  for (const { item: asked, answer } of ALL_ITEMS) {
    if (asked !== item || (answer.kind !== "number" && answer.kind !== "gauge")) continue;
    return unitsLike(answer.unit === "site-pressure" ? "psi" : answer.unit);
  }
  return null;
}

function judgedIn(item: ItemId): readonly Unit[] | null {
  const limits = RULES.filter(({ items }) => items.includes(item)).flatMap(({ settings }) => Object.values(settings));
  const limit = limits.find(({ default: value }) => typeof value === "object");
  if (typeof limit?.default !== "object") return null;
  return TIMES.includes(limit.default.unit) ? TIMES : unitsLike(limit.default.unit);
}

/** The words an item can be answered with, where it is answered with one of a few; null for any other item. */
export function choicesOf(item: ItemId): readonly string[] | null {
  for (const { item: asked, answer } of ALL_ITEMS) {
    if (asked === item && answer.kind === "choice") return answer.options.map(({ value }) => value);
  }
  return null;
}
