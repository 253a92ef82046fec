/** A document as JSON carries it, to be changed at will. */
export type Json = null | boolean | number | string | Json[] | { [name: string]: Json };

export const asJson = (value: unknown): Json => JSON.parse(JSON.stringify(value)) as Json;

/** A copy with one thing put in place of another; `undefined` takes it away. */
export function changed(document: unknown, path: readonly (string | number)[], value: unknown): Json {
  const copy = asJson(document);
  const last = path.at(-1);
  if (last === undefined) return asJson(value);
  const holder = path
    .slice(0, -1)
    .reduce<Json>((at, step) => (at as Record<string | number, Json>)[step] ?? null, copy);
  if (typeof holder !== "object" || holder === null) throw new Error(`nothing at ${path.join(".")}`);
  if (value === undefined) Reflect.deleteProperty(holder, last);
  else Reflect.set(holder, last, asJson(value));
  return copy;
}

/** Every place of a document, the document itself first. */
export function placesOf(document: Json, at: readonly (string | number)[] = []): (readonly (string | number)[])[] {
  if (typeof document !== "object" || document === null) return [at];
  const inside = Array.isArray(document) ? [...document.entries()] : Object.entries(document);
  return [at, ...inside.flatMap(([step, value]) => placesOf(value, [...at, step]))];
}
