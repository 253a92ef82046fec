import type { z } from "zod";
import { inputsSchema } from "@/lib/exchange/calculator/listing";

/** The fields of a calculation's form, as plain data: made from its schema on the server, drawn in the browser. */
interface Named {
  readonly name: string;
  readonly title: string;
  /** Empty where the title says it all. */
  readonly hint: string;
  readonly optional: boolean;
  readonly when: Readonly<Record<string, readonly string[]>> | null;
  /** What it means to give nothing, where that is a value. */
  readonly preset: unknown;
}

export type FormField = Named &
  (
    | { readonly kind: "number"; readonly unit: string | null }
    | { readonly kind: "pressure" }
    | { readonly kind: "pressure-unit" }
    | { readonly kind: "choice"; readonly options: readonly string[] }
    | { readonly kind: "flag" }
    | { readonly kind: "date" }
    | { readonly kind: "text" }
    | { readonly kind: "list" }
    | { readonly kind: "group"; readonly fields: readonly FormField[] }
    | { readonly kind: "rows"; readonly fields: readonly FormField[] }
  );

/** What of a JSON Schema this form reads. */
interface Shape {
  readonly type?: string;
  readonly title?: string;
  readonly description?: string;
  readonly unit?: string;
  readonly when?: Readonly<Record<string, readonly string[]>>;
  readonly format?: string;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly anyOf?: readonly Shape[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly items?: Shape;
  readonly default?: unknown;
}

export function formModel(schema: z.core.$ZodType): FormField[] {
  return fieldsOf(inputsSchema(schema) as Shape);
}

const fieldsOf = ({ properties = {}, required = [] }: Shape): FormField[] =>
  Object.entries(properties).map(([name, shape]) => field(name, shape, !required.includes(name)));

function field(name: string, given: Shape, optional: boolean): FormField {
  const shape = meant(given);
  const { title = titled(name), description: told = "", when = null } = { ...shape, ...given };
  const named = { name, title, hint: hintOf(told), optional, when, preset: given.default };
  const options = shape.enum ?? (shape.const === undefined ? undefined : [shape.const]);
  if (options)
    return isPressureUnits(options) ? { ...named, kind: "pressure-unit" } : { ...named, kind: "choice", options };
  if (shape.type === "boolean") return { ...named, kind: "flag" };
  if (shape.type === "number" || shape.type === "integer")
    return { ...named, kind: "number", unit: shape.unit ?? null };
  if (shape.type === "object") return ofObject(named, shape);
  if (shape.type === "array")
    return shape.items?.type === "object"
      ? { ...named, kind: "rows", fields: fieldsOf(shape.items) }
      : { ...named, kind: "list" };
  return { ...named, kind: shape.format === "date" ? "date" : "text" };
}

function ofObject(named: Named, shape: Shape): FormField {
  const names = Object.keys(shape.properties ?? {});
  const isPressure = names.length === 2 && names.includes("value") && names.includes("unit");
  return isPressure ? { ...named, kind: "pressure" } : { ...named, kind: "group", fields: fieldsOf(shape) };
}

/** Where several forms are taken, the one that a person chooses from: a list of words, or named parts; else the first. */
function meant(shape: Shape): Shape {
  const forms = shape.anyOf;
  if (!forms) return shape;
  return forms.find((form) => form.enum ?? form.properties) ?? forms.find((form) => form.type !== "null") ?? shape;
}

const isPressureUnits = (options: readonly string[]) => options.includes("psi") && !options.includes("mL");

/** A description also tells programs what leaving a field out means, and counts in what; a person sees that beside the field. */
function hintOf(description: string): string {
  const parts = description.split("; ").filter((part) => !/if absent|or absent|needed by/.test(part));
  const hint = parts
    .join("; ")
    .replace(/ in (L|C|kg|g|%|mL|mL\/min|L\/min|percent|percent-hours|days|hours|whole months)$/, "");
  return hint.length < SHORTEST_HINT ? "" : hint;
}

const SHORTEST_HINT = 32;

/** "appliedPart": "Applied part". */
function titled(name: string): string {
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
}
