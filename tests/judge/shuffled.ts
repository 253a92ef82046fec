import type { Evidence } from "@/lib/domain/evidence";
import type { Random } from "./random";

/** The same evidence with every list of it, and the fields of everything in it, in another order. */
export const shuffled = (evidence: Evidence, random: Random): Evidence => inOtherOrder(evidence, random) as Evidence;

function inOtherOrder(value: unknown, random: Random): unknown {
  if (Array.isArray(value)) return random.shuffled(value).map((one) => inOtherOrder(one, random));
  if (typeof value !== "object" || value === null) return value;
  const entries = random.shuffled(Object.entries(value));
  return Object.fromEntries(entries.map(([name, inside]) => [name, inOtherOrder(inside, random)]));
}
