import type { z } from "zod";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import type { Judgement } from "@/lib/domain/judgement";
import type { Rule, RuleExample } from "@/lib/domain/rule";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { readyRoom } from "@/tests/support/ready-room";

/** One rule at work: a room in which it speaks, as anybody could write it down, and what the judge says of that room. */
export interface WorkedExample {
  readonly rule: string;
  readonly example: { readonly name: string; readonly scheme: string; readonly concludes: string };
  readonly evidence: unknown;
  readonly judgement: Judgement;
}

export function workedExample(rule: Rule): WorkedExample {
  const example = telling(rule);
  const scheme = example.scheme ?? "US";
  const evidence = example.given(readyRoom(scheme));
  return {
    rule: rule.id,
    example: { name: example.name, scheme, concludes: example.expect },
    evidence: withoutDefaults(evidence),
    judgement: judge(evidence),
  };
}

/** The first example in which the rule speaks at its own severity, else the first in which it speaks at all. */
function telling({ id, severity, examples }: Rule): RuleExample {
  const speaks = ({ expect }: RuleExample) => expect !== "holds" && (expect !== "owed" || severity === "owed");
  const found = examples.find(({ expect }) => expect === severity) ?? examples.find(speaks);
  if (found === undefined) throw new Error(`${id} has no example in which it speaks`);
  return found;
}

/** What a person would not write: everything that the schema fills in when it is left out. */
const withoutDefaults = (evidence: Evidence): unknown => stripped(evidenceDocument, evidence);

type Definition = z.core.$ZodTypes["_zod"]["def"];

function stripped(schema: z.core.$ZodType, value: unknown): unknown {
  const definition = schema._zod.def as Definition;
  if (definition.type === "nullable" || definition.type === "optional" || definition.type === "default") {
    return value === null || value === undefined ? value : stripped(definition.innerType, value);
  }
  if (definition.type === "array") return (value as unknown[]).map((one) => stripped(definition.element, one));
  if (definition.type !== "object") return value;
  const fields = Object.entries(value as Record<string, unknown>).filter(
    ([name, inside]) => !isDefault(definition.shape[name], inside),
  );
  return Object.fromEntries(
    fields.map(([name, inside]) => {
      const inner = definition.shape[name];
      return [name, inner === undefined ? inside : stripped(inner, inside)];
    }),
  );
}

function isDefault(schema: z.core.$ZodType | undefined, value: unknown): boolean {
  const definition = schema?._zod.def as Definition | undefined;
  if (value === undefined) return true;
  return definition?.type === "default" && JSON.stringify(definition.defaultValue) === JSON.stringify(value);
}

const WIDTH = 120;

/** JSON for people: what fits stands on one line, and each thing of a list on one of its own. */
export function written(value: unknown, indent = ""): string {
  const line = onOneLine(value);
  if (typeof value !== "object" || value === null || indent.length + line.length <= WIDTH) return line;
  const deeper = `${indent}  `;
  if (Array.isArray(value)) return block("[]", value.map(onOneLine), indent);
  return block(
    "{}",
    Object.entries(value).map(([name, inside]) => `${JSON.stringify(name)}: ${written(inside, deeper)}`),
    indent,
  );
}

const block = (brackets: string, lines: readonly string[], indent: string): string =>
  `${brackets[0]}\n${lines.map((line) => `${indent}  ${line}`).join(",\n")}\n${indent}${brackets[1]}`;

function onOneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).map(([name, inside]) => `${JSON.stringify(name)}: ${onOneLine(inside)}`);
  return fields.length === 0 ? "{}" : `{ ${fields.join(", ")} }`;
}
