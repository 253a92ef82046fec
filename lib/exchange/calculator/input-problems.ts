import type { z } from "zod";
import { schemaProblems } from "@/lib/exchange/judge/schema-problems";
import { type NotTold, notTold } from "./answer";

const MOST_TOLD = 20;

/** Inputs that cannot be used: each field with what stands there and what would be right. */
export function inputProblems(schema: z.core.$ZodType, inputs: unknown, issues: readonly z.core.$ZodIssue[]): NotTold {
  const problems = schemaProblems(schema, inputs, issues).slice(0, MOST_TOLD);
  const message = problems.map(sentence).join("; ");
  return notTold("invalid-input", `${message}.`, { fields: problems });
}

function sentence({ path, value, message }: { path: string; value: unknown; message: string }): string {
  const field = path === "" ? "request" : path;
  // JSON reads 1e999 as a number without end, which cannot be written again.
  const told = value !== null && value !== undefined && !(typeof value === "number" && !Number.isFinite(value));
  return told ? `${field} is ${JSON.stringify(value)}: ${message}` : `${field}: ${message}`;
}
