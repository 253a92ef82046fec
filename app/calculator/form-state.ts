import { type PressureUnit, pressureIn } from "@/lib/units/pressure";
import type { FormField } from "./form-model";
import { readNumber } from "./typed-number";

/** What stands in the fields, as typed. */
export interface Entered {
  readonly [name: string]: EnteredValue;
}
export type EnteredValue = string | boolean | Entered | readonly Entered[];

/** The units that a page shows gauge pressures in. */
export const PAGE_UNITS = ["psi", "kPa", "bar"] as const;
export type PageUnit = (typeof PAGE_UNITS)[number];

/** What tells one row from another while rows come and go; no field has this name. */
export const ROW = "#";

export interface Asked {
  readonly request: Readonly<Record<string, unknown>>;
  /** By path, as the calculator names its fields. */
  readonly problems: Readonly<Record<string, string>>;
}

type Given = Readonly<Record<string, unknown>>;

/** The first values of a form: the example's. */
export function entered(fields: readonly FormField[], example: Given): Entered {
  return Object.fromEntries(fields.map((field) => [field.name, enteredValue(field, example[field.name])]));
}

function enteredValue(field: FormField, told: unknown): EnteredValue {
  const given = told === undefined ? field.preset : told;
  switch (field.kind) {
    case "group":
      return entered(field.fields, (given ?? {}) as Given);
    case "rows":
      return ((given ?? []) as Given[]).map((row, at) => ({ ...entered(field.fields, row), [ROW]: String(at) }));
    case "flag":
      return given === true;
    case "pressure":
      return given === undefined ? "" : String((given as { value: number }).value);
    case "list":
      return ((given ?? []) as string[]).join(" ");
    case "choice":
      return typeof given === "string" ? given : field.optional ? "" : (field.options[0] ?? "");
    default:
      return given === undefined || given === null ? "" : String(given);
  }
}

export const isShown = ({ when }: FormField, all: Entered): boolean =>
  when === null || Object.entries(when).every(([name, choices]) => choices.includes(String(all[name])));

/** The request that the fields say, and which of them are no numbers. Empty fields are left out. */
export function asked(fields: readonly FormField[], all: Entered, unit: PageUnit): Asked {
  const problems: Record<string, string> = {};
  return { request: requestOf(fields, all, { unit, problems, path: "" }), problems };
}

interface Reading {
  readonly unit: PageUnit;
  readonly problems: Record<string, string>;
  readonly path: string;
}

function requestOf(fields: readonly FormField[], all: Entered, reading: Reading): Record<string, unknown> {
  const shown = fields.filter((field) => isShown(field, all));
  const told = shown.map((field) => [field.name, askedValue(field, all[field.name] ?? "", below(reading, field.name))]);
  return Object.fromEntries(told.filter(([, value]) => value !== undefined));
}

const below = (reading: Reading, name: string): Reading => ({
  ...reading,
  path: reading.path === "" ? name : `${reading.path}.${name}`,
});

function askedValue(field: FormField, value: EnteredValue, reading: Reading): unknown {
  if (field.kind === "group") {
    const group = requestOf(field.fields, value as Entered, reading);
    return Object.keys(group).length === 0 && field.optional ? undefined : group;
  }
  if (field.kind === "rows")
    return (value as readonly Entered[]).map((row, at) =>
      requestOf(field.fields, row, { ...reading, path: `${reading.path}[${at}]` }),
    );
  if (field.kind === "pressure-unit") return reading.unit;
  if (typeof value !== "string") return value;
  if (value.trim() === "") return undefined;
  if (field.kind === "number") return numberOf(value, reading);
  if (field.kind === "pressure") {
    const number = numberOf(value, reading);
    return number === undefined ? undefined : { value: number, unit: reading.unit };
  }
  return field.kind === "list" ? value.trim().split(/[\s,;]+/) : value;
}

function numberOf(text: string, { problems, path }: Reading): number | undefined {
  const read = readNumber(text);
  if (read.ok) return read.value;
  problems[path] = read.message;
  return undefined;
}

/** The same pressures in another unit, as finely as a gauge of it is read; what is no number stays as typed. */
export function inUnit(fields: readonly FormField[], all: Entered, from: PageUnit, to: PageUnit): Entered {
  const told = fields.map((field): [string, EnteredValue] => {
    const value = all[field.name] ?? "";
    if (field.kind === "group") return [field.name, inUnit(field.fields, value as Entered, from, to)];
    if (field.kind === "pressure" && typeof value === "string") return [field.name, pressureText(value, from, to)];
    return [field.name, value];
  });
  return Object.fromEntries(told);
}

function pressureText(text: string, from: PressureUnit, to: PressureUnit): string {
  const read = readNumber(text);
  if (!read.ok) return text;
  return String(Number(pressureIn(read.value, from, to).toPrecision(to === "bar" ? 4 : 5)));
}

export const hasPressure = (fields: readonly FormField[]): boolean =>
  fields.some(
    (field) =>
      field.kind === "pressure" ||
      field.kind === "pressure-unit" ||
      (field.kind === "group" && hasPressure(field.fields)),
  );

/** One more row, like the last one. */
export function withAnotherRow(fields: readonly FormField[], rows: readonly Entered[]): readonly Entered[] {
  const next = Math.max(-1, ...rows.map((row) => Number(row[ROW]))) + 1;
  return [...rows, { ...(rows.at(-1) ?? entered(fields, {})), [ROW]: String(next) }];
}
