import type { Definition } from "@/app/_ui/definition-list";
import { figure, keyWords, optionWords, unitWords } from "./words";

/** Keys that carry a unit in their name, and those that count nothing. */
const WITHOUT_UNIT = /(L|Min|LPerHour|[Ff]raction|perDay|^at|score)$/;

/** Several results as names and values, those inside of others with both names. */
export function flattened(value: object, unit: string | null, before = ""): Definition[] {
  return Object.entries(value).flatMap(([key, inner]): Definition[] => {
    const term = before === "" ? keyWords(key) : `${before}, ${keyWords(key).toLowerCase()}`;
    if (isRange(inner))
      return [{ term, value: `${figure(inner.value)} (${figure(inner.low)} to ${figure(inner.high)})` }];
    if (isQuantity(inner)) return [{ term, value: `${figure(inner.value)} ${unitWords(inner.unit)}` }];
    if (typeof inner === "object" && inner !== null)
      return flattened(inner, unit, /^\d+$/.test(key) ? nameOf(inner, key) : term);
    return [{ term, value: plain(inner, WITHOUT_UNIT.test(key) ? null : unit) }];
  });
}

function plain(value: unknown, unit: string | null): string {
  if (value === null || value === undefined) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return unit ? `${figure(value)} ${unitWords(unit)}` : figure(value);
  return /^[a-z-]+$/.test(String(value)) ? optionWords(String(value)) : String(value);
}

const nameOf = (inner: object, key: string): string =>
  "room" in inner ? `Room ${String(inner.room)}` : `No. ${Number(key) + 1}`;

const isRange = (value: unknown): value is { value: number; low: number; high: number } =>
  typeof value === "object" && value !== null && "low" in value && "high" in value;

const isQuantity = (value: unknown): value is { value: number; unit: string } =>
  typeof value === "object" && value !== null && "value" in value && "unit" in value;
