import { type NotTold, notTold, type Outcome } from "./answer";
import { CALCULATIONS, calculationNamed } from "./registry";

export type Id = string | number | null;

/** The answer to one line; a line that is no request is answered too. Null: an empty line asks nothing. */
export function answerLine(line: string | null): string | null {
  if (line === null) return written(null, null, notTold("malformed-line", "The line is not text in UTF-8."));
  if (line.trim() === "") return null;
  let request: unknown;
  try {
    request = JSON.parse(line);
  } catch (error) {
    const why = error instanceof RangeError ? "it is nested too deeply" : (error as Error).message;
    return written(null, null, notTold("malformed-line", `The line is not JSON: ${why}`));
  }
  return answerRequest(request);
}

/** The answer to one request, as a line of JSON without its end. */
export function answerRequest(request: unknown): string {
  if (typeof request !== "object" || request === null || Array.isArray(request))
    return written(
      null,
      null,
      notTold(
        "malformed-line",
        'The line is JSON but no request; write an object such as {"id":1,"calculation":"convert",…}.',
      ),
    );
  const { id, calculation, ...inputs } = request as Record<string, unknown>;
  if (!isId(id)) {
    const message = "id: must be a text, a number that can be written, or null.";
    return written(null, nameOf(calculation), notTold("invalid-input", message, { fields: [{ path: "id", message }] }));
  }
  return written(id ?? null, nameOf(calculation), outcomeOf(calculation, inputs));
}

function outcomeOf(name: unknown, inputs: Record<string, unknown>): Outcome {
  const found = typeof name === "string" ? calculationNamed(name) : undefined;
  return found ? found.run(inputs) : unknownCalculation(name);
}

function unknownCalculation(name: unknown): NotTold {
  const known = CALCULATIONS.map((one) => one.name);
  const what = name === undefined ? "The calculation is missing" : `The calculation ${shown(name)} is not known`;
  return notTold("unknown-calculation", `${what}. Choose one of: ${known.join(", ")}.`);
}

function shown(name: unknown): string {
  if (typeof name !== "string")
    return `of the kind ${Array.isArray(name) ? "list" : name === null ? "null" : typeof name}`;
  return `"${name.length > 60 ? `${name.slice(0, 60)}…` : name}"`;
}

const nameOf = (name: unknown): string | null => (typeof name === "string" && name.length <= 60 ? name : null);

const isId = (id: unknown): id is Id | undefined =>
  id === undefined || id === null || typeof id === "string" || (typeof id === "number" && Number.isFinite(id));

/** The fixed fields first, in the order of the documentation. */
function written(id: Id, calculation: string | null, outcome: Outcome): string {
  if (!outcome.ok) {
    const { refusal, message, more } = outcome;
    return JSON.stringify({
      id,
      ok: false,
      ...(calculation === null ? {} : { calculation }),
      refusal,
      message,
      ...more,
    });
  }
  const { value, unit, method, uncertainty, source, more } = outcome;
  return JSON.stringify({ id, ok: true, calculation, value, unit, method, uncertainty, source, ...more });
}
