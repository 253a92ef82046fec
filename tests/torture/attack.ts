import type { OutgoingHttpHeaders } from "node:http";
import type { Dice } from "@/lib/domain/dice";
import { hostileText, type Json, type Known, madeFor, spoiled } from "./schema-values";

export interface Operation {
  readonly method: string;
  readonly path: string;
  readonly parameters: readonly { readonly name: string; readonly in: string; readonly schema: Json }[];
  readonly body: Json | null;
}

export interface Attack {
  readonly method: string;
  readonly path: string;
  readonly headers: OutgoingHttpHeaders;
  readonly body?: string | undefined;
}

/** Every operation of the API's own description; locking the session would only end the attack. */
export function operationsIn(document: Json): Operation[] {
  const paths = document.paths as Readonly<Record<string, Readonly<Record<string, Json>>>>;
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods)
      .filter(([method]) => ["get", "post", "put", "delete"].includes(method))
      .map(([method, operation]) => ({
        method: method.toUpperCase(),
        path,
        parameters: (operation.parameters ?? []) as Operation["parameters"],
        body: bodyOf(operation),
      })),
  );
}

function bodyOf(operation: Json): Json | null {
  const content = (operation.requestBody as { content?: Readonly<Record<string, { schema: Json }>> } | undefined)
    ?.content;
  return content?.["application/json"]?.schema ?? null;
}

export function attackOn(operation: Operation, dice: Dice, known: Known): Attack {
  const path = pathOf(operation, dice, known);
  if (operation.body === null) return { method: operation.method, path, headers: {} };
  const { body, type } = bodyFor(operation.body, dice, known);
  return {
    method: operation.method,
    path,
    headers: {
      "Content-Type": type,
      "Content-Length": Buffer.byteLength(body),
      ...(dice.next() < 0.5
        ? {
            "Idempotency-Key":
              dice.next() < 0.8 ? crypto.randomUUID() : encodeURIComponent(hostileText(dice)).slice(0, 500),
          }
        : {}),
      ...(dice.next() < 0.03 ? { Origin: "https://elsewhere.example" } : {}),
    },
    body,
  };
}

function pathOf({ path, parameters }: Operation, dice: Dice, known: Known): string {
  const filled = path.replaceAll(/\{[^}]+\}/g, () => {
    const text = dice.next() < 0.5 && known.length > 0 ? dice.pick(known) : hostileText(dice);
    return encodeURIComponent(text.slice(0, 2_000)) || "x";
  });
  const query = new URLSearchParams();
  for (const one of parameters.filter((parameter) => parameter.in === "query")) {
    if (dice.next() < 0.4) continue;
    const fitting = madeFor(one.schema ?? {}, dice, known);
    query.append(one.name, (dice.next() < 0.5 ? String(fitting) : hostileText(dice)).slice(0, 2_000));
  }
  const text = query.toString();
  return text ? `${filled}?${text}` : filled;
}

const DEEP = 20_000;
const HUGE_BYTES = 6_000_000;

function bodyFor(schema: Json, dice: Dice, known: Known): { body: string; type: string } {
  const value = madeFor(schema, dice, known);
  const type = "application/json";
  const fate = dice.next();
  if (fate < 0.12) return { body: JSON.stringify(value), type };
  if (fate < 0.8) return { body: JSON.stringify(timesSpoiled(value, dice)), type };
  if (fate < 0.85) return { body: JSON.stringify(value).slice(0, -dice.between(1, 9)), type };
  if (fate < 0.88) return { body: "[".repeat(DEEP) + "]".repeat(DEEP), type };
  if (fate < 0.9) return { body: `${'{"a":'.repeat(DEEP)}1${"}".repeat(DEEP)}`, type };
  if (fate < 0.91) return { body: JSON.stringify({ text: "x".repeat(HUGE_BYTES) }), type };
  if (fate < 0.95)
    return {
      body: JSON.stringify(value),
      type: dice.pick(["text/plain", "application/xml", "multipart/form-data", ""]),
    };
  return {
    body: dice.pick(["", "null", "NaN", "\u0000", "\ufeff{}", '{"__proto__":{"admin":true}}', '{"a":1,"a":2}']),
    type,
  };
}

function timesSpoiled(value: unknown, dice: Dice): unknown {
  let result = value;
  for (let time = dice.between(1, 3); time > 0; time -= 1) result = spoiled(result, dice);
  return result;
}
