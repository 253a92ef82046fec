/** What keeps a document from being judged: where it stands, what stands there, and what would be right. */
export interface DocumentProblem {
  /** As a program would reach it: workstation.fitted.cylinders[0].gas; empty for the document as a whole. */
  readonly path: string;
  /** What stands there; null where nothing does. */
  readonly value: unknown;
  readonly message: string;
}

export type Step = string | number;

export function pathOf(steps: readonly PropertyKey[]): string {
  return steps.reduce<string>((path, step) => {
    if (typeof step === "number") return `${path}[${step}]`;
    const name = String(step);
    if (!/^[A-Za-z_][\w-]*$/.test(name)) return `${path}[${JSON.stringify(name)}]`;
    return path === "" ? name : `${path}.${name}`;
  }, "");
}

const LONGEST_SHOWN = 200;

/** What stands at a place of the document, short enough to be read in an answer. */
export function valueAt(document: unknown, steps: readonly PropertyKey[]): unknown {
  let at = document;
  for (const step of steps) {
    if (typeof at !== "object" || at === null || !Object.hasOwn(at, step)) return null;
    at = (at as Record<PropertyKey, unknown>)[step];
  }
  if (typeof at === "string" && at.length > LONGEST_SHOWN) return `${at.slice(0, LONGEST_SHOWN)}…`;
  if (typeof at !== "object" || at === null) return at ?? null;
  return isShort(at) ? at : Array.isArray(at) ? "a list" : "an object";
}

function isShort(value: object): boolean {
  try {
    return JSON.stringify(value).length <= LONGEST_SHOWN;
  } catch (error) {
    // What came may be nested deeper than can be written out again.
    if (error instanceof RangeError) return false;
    throw error;
  }
}
