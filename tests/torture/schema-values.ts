import type { Dice } from "@/lib/domain/dice";

export type Json = Readonly<Record<string, unknown>>;

/** What has been seen in the application's replies: real ids make a request go deeper than invented ones. */
export type Known = readonly string[];

/** A value that the schema would take, more or less: the beginning of every attack. */
export function madeFor(schema: Json, dice: Dice, known: Known, depth = 0): unknown {
  if ("const" in schema) return schema.const;
  if (Array.isArray(schema.enum)) return dice.pick(schema.enum);
  const choices = (schema.anyOf ?? schema.oneOf) as Json[] | undefined;
  if (choices) return madeFor(dice.pick(choices), dice, known, depth);
  if (Array.isArray(schema.allOf))
    return Object.assign({}, ...schema.allOf.map((part) => madeFor(part as Json, dice, known, depth)));
  switch (schema.type) {
    case "object":
      return objectOf(schema, dice, known, depth);
    case "array":
      return depth > 6
        ? []
        : Array.from({ length: dice.between(Number(schema.minItems ?? 0), 2) }, () =>
            madeFor((schema.items ?? {}) as Json, dice, known, depth + 1),
          );
    case "integer":
      return dice.between(Number(schema.minimum ?? 0), Math.min(Number(schema.maximum ?? 1_000), 1_000_000));
    case "number":
      return Number(schema.minimum ?? 0) + dice.next() * 100;
    case "boolean":
      return dice.next() < 0.5;
    case "null":
      return null;
    default:
      return textOf(schema, dice, known);
  }
}

function objectOf(schema: Json, dice: Dice, known: Known, depth: number): unknown {
  const required = new Set((schema.required ?? []) as string[]);
  const properties = Object.entries((schema.properties ?? {}) as Readonly<Record<string, Json>>);
  const kept = properties.filter(([name]) => required.has(name) || (depth < 6 && dice.next() < 0.5));
  return Object.fromEntries(kept.map(([name, inner]) => [name, madeFor(inner, dice, known, depth + 1)]));
}

function textOf({ format, pattern, minLength }: Json, dice: Dice, known: Known): string {
  if (format === "date") return `2026-0${dice.between(1, 9)}-1${dice.between(0, 9)}`;
  if (format === "date-time") return "2026-03-04T12:10:00.000Z";
  if (format === "uuid" || String(pattern ?? "").includes("[0-9a-f"))
    return known.length > 0 ? dice.pick(known) : crypto.randomUUID();
  return "some words ".repeat(Math.ceil(Number(minLength ?? 1) / 11)).trim();
}

const HOSTILE: readonly unknown[] = [
  "",
  "\u0000",
  "\ud800",
  "'; DROP TABLE history.leaf; --",
  "1' OR '1'='1",
  "$1",
  "\\'); SELECT pg_sleep(20); --",
  "<script>alert(1)</script>",
  "javascript:alert(1)",
  "{{7*7}}",
  "../../../../etc/passwd",
  "%00%2e%2e%2f",
  "x".repeat(20_000),
  "\u202e\u0301".repeat(200),
  "00000000-0000-4000-8000-000000000000",
  "2026-02-30",
  "9999-12-31T23:59:60Z",
  "-infinity",
  "NaN",
  -1,
  0.1,
  1e308,
  -1e308,
  2 ** 53 + 2,
  true,
  null,
  {},
  [],
  [[[[[[]]]]]],
  { toString: "x", constructor: { prototype: 1 } },
];

/** The value with one of its parts, or itself, put out of order. */
export function spoiled(value: unknown, dice: Dice): unknown {
  if (value === null || typeof value !== "object" || dice.next() < 0.15) return dice.pick(HOSTILE);
  const entries = Object.entries(value);
  if (entries.length === 0 || dice.next() < 0.1)
    return Array.isArray(value)
      ? [...value, dice.pick(HOSTILE)]
      : { ...value, [dice.pick(["__proto__", "x", "id", "facilityId"])]: dice.pick(HOSTILE) };
  const [key, inner] = dice.pick(entries);
  if (dice.next() < 0.15) return Object.fromEntries(entries.filter(([other]) => other !== key));
  const changed = spoiled(inner, dice);
  return Array.isArray(value) ? value.with(Number(key), changed) : { ...value, [key]: changed };
}

/** As it can travel in an address: lone surrogates are replaced. */
export const hostileText = (dice: Dice): string =>
  Buffer.from(String(dice.pick(HOSTILE.filter((one) => typeof one === "string" || typeof one === "number")))).toString(
    "utf8",
  );
