import type { z } from "zod";

/**
 * Walks a schema beside a document, so that a refusal can say which fields are known at the place where an unknown one stands.
 */
type Schema = z.core.$ZodType;
type Definition = z.core.$ZodTypes["_zod"]["def"];

/** The names of the fields known at a place; empty where it is not an object with named fields. */
export function fieldsAt(schema: Schema, document: unknown, steps: readonly PropertyKey[]): readonly string[] {
  let at: Schema | null = schema;
  let value = document;
  for (const step of steps) {
    if (at === null) return [];
    at = inside(definitionOf(at, value), step);
    value = (value as Record<PropertyKey, unknown> | null)?.[step];
  }
  if (at === null) return [];
  const definition = definitionOf(at, value);
  return definition.type === "object" ? Object.keys(definition.shape) : [];
}

function inside(definition: Definition, step: PropertyKey): Schema | null {
  if (definition.type === "object") return definition.shape[String(step)] ?? null;
  if (definition.type === "array") return definition.element;
  if (definition.type === "record") return definition.valueType;
  return null;
}

/** The schema behind its wrappers, and of a union the member that the document has chosen. */
function definitionOf(schema: Schema, value: unknown): Definition {
  const definition = schema._zod.def as Definition;
  switch (definition.type) {
    case "nullable":
    case "optional":
    case "default":
    case "prefault":
    case "readonly":
    case "nonoptional":
      return definitionOf(definition.innerType, value);
    case "pipe":
      return definitionOf(definition.in, value);
    case "union":
      return chosen(definition, value) ?? definition;
    default:
      return definition;
  }
}

function chosen(definition: z.core.$ZodUnionDef, value: unknown): Definition | null {
  if (!("discriminator" in definition) || typeof value !== "object" || value === null) return null;
  const name = String(definition.discriminator);
  const word = (value as Record<string, unknown>)[name];
  for (const option of definition.options) {
    const own = definitionOf(option, value);
    const literal = own.type === "object" ? (own.shape[name]?._zod.def as Definition | undefined) : undefined;
    if (literal?.type === "literal" && literal.values.some((one) => one === word)) return own;
  }
  return null;
}
