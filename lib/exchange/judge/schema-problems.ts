import type { z } from "zod";
import { type DocumentProblem, pathOf, valueAt } from "./problem";
import { fieldsAt } from "./shape";

type Issue = z.core.$ZodIssue;

/** What a schema refuses, each with its full path, what stands there and what would be right. */
export function schemaProblems(
  schema: z.core.$ZodType,
  document: unknown,
  issues: readonly Issue[],
): DocumentProblem[] {
  return issues.flatMap((issue) => {
    if (issue.code === "unrecognized_keys") return issue.keys.map((key) => unknownField(schema, document, issue, key));
    const meant = issue.code === "invalid_union" ? meantShape(issue) : null;
    if (meant !== null) return schemaProblems(schema, document, meant);
    const { path } = issue;
    return [{ path: pathOf(path), value: valueAt(document, path), message: messageOf(issue, document) }];
  });
}

/** Of several shapes the one that fits but for something inside of it: that is what was meant. */
function meantShape({ errors, path }: z.core.$ZodIssueInvalidUnion): Issue[] | null {
  const meant = errors.find((issues) => issues.length > 0 && issues.every((inner) => isInside(inner)));
  return meant?.map((inner) => ({ ...inner, path: [...path, ...inner.path] })) ?? null;
}

const isInside = ({ code, path }: Issue): boolean => path.length > 0 || code === "unrecognized_keys";

function unknownField(schema: z.core.$ZodType, document: unknown, issue: Issue, key: string): DocumentProblem {
  const path = [...issue.path, key];
  const known = fieldsAt(schema, document, issue.path);
  const message = known.length === 0 ? "unknown field" : `unknown field; known here: ${known.join(", ")}`;
  return { path: pathOf(path), value: valueAt(document, path), message };
}

function messageOf(issue: Issue, document: unknown): string {
  switch (issue.code) {
    case "invalid_type":
      return wrongType(issue.expected, issue.path, document);
    case "invalid_value":
      return notOneOf(issue.values.map(String), issue.path, document);
    case "invalid_union":
      return unionMessage(issue, document);
    case "too_small":
      return `must be ${issue.inclusive === false ? "more than" : "at least"} ${sizeOf(issue.origin, issue.minimum)}`;
    case "too_big":
      return `must be ${issue.inclusive === false ? "less than" : "at most"} ${sizeOf(issue.origin, issue.maximum)}`;
    default:
      return issue.message;
  }
}

const sizeOf = (origin: string, size: number | bigint): string =>
  origin === "string" ? `${size} characters long` : `${size}`;

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list",
  object: "an object",
  record: "an object",
  null: "null",
};

const said = (type: string): string => TYPE_WORDS[type] ?? type;

function wrongType(expected: string, path: readonly PropertyKey[], document: unknown): string {
  const found = foundAt(document, path);
  if (found === "nothing") return `missing; must be ${said(expected)}`;
  const whole = path.length === 0 ? "; one document, or one on each line, is read" : "";
  return `must be ${said(expected)}, not ${found}${whole}`;
}

/** The kind of thing that stands at a place, in words. */
function foundAt(document: unknown, path: readonly PropertyKey[]): string {
  let at = document;
  for (const step of path) {
    if (typeof at !== "object" || at === null || !Object.hasOwn(at, step)) return "nothing";
    at = (at as Record<PropertyKey, unknown>)[step];
  }
  if (at === null) return "null";
  if (Array.isArray(at)) return "a list";
  if (typeof at === "number" && !Number.isFinite(at)) return "a number too large to be read";
  return said(typeof at);
}

/** The word itself is told, and every word that would be right. A unit is called a unit. */
function notOneOf(known: readonly string[], path: readonly PropertyKey[], document: unknown): string {
  const value = valueAt(document, path);
  const isUnit = String(path.at(-1) ?? "")
    .toLowerCase()
    .endsWith("unit");
  if (foundAt(document, path) === "nothing") return `missing; must be one of: ${known.join(", ")}`;
  const word = typeof value === "string" ? `“${value}”` : foundAt(document, path);
  if (known.length === 1) return `${word} is not right here; must be ${known[0]}`;
  return isUnit
    ? `${word} is not a unit here; known: ${known.join(", ")}`
    : `${word} is not known here; known: ${known.join(", ")}`;
}

/** Where each shape begins with a word of its own, that word is what is wrong. */
function unionMessage(issue: z.core.$ZodIssueInvalidUnion, document: unknown): string {
  if ("options" in issue && Array.isArray(issue.options))
    return notOneOf(issue.options.map(String), issue.path, document);
  return 'must be a quantity such as {"value": 1000, "unit": "psi"}, a number, true or false, or a text';
}
