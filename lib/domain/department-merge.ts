import type { DepartmentFile, DepartmentRead, Problem } from "@/lib/domain/department/model";
import { nearest } from "@/lib/domain/nearest";

/** A record as it will be, the line that says so (null: no file mentions it), and what it was (null: it is new). */
export interface Entry<Record> {
  readonly record: Record;
  readonly line: number | null;
  readonly was: Record | null;
}

export type Tell = (problem: Problem) => void;

/** One noun after the import, by the name people know it by. */
export interface Merged<Record> {
  readonly file: DepartmentFile;
  readonly entries: readonly Entry<Record>[];
  readonly byKey: ReadonlyMap<string, Entry<Record>>;
}

/** Names are compared without regard to letter case and outer spaces. */
export const keyOf = (...names: readonly string[]): string =>
  names.map((name) => name.trim().toLowerCase()).join("\u0000");

interface Merging<Row extends { readonly line: number }, Record> {
  readonly file: DepartmentFile;
  readonly rows: readonly Row[];
  readonly existing: readonly Record[];
  /** The names that make a row and a record the same thing, under the header of the first of them. */
  readonly column: string;
  readonly ofRow: (row: Row) => readonly string[];
  readonly ofRecord: (record: Record) => readonly string[];
  readonly build: (row: Row, was: Record | null) => Record;
}

/** Lays a file's rows over what is there. Nothing is ever taken away: a thing that no row names stays as it is. */
export function merge<Row extends { readonly line: number }, Record>(
  tell: Tell,
  merging: Merging<Row, Record>,
): Merged<Record> {
  const { file, column } = merging;
  const byKey = new Map<string, Entry<Record>>();
  for (const record of merging.existing)
    byKey.set(keyOf(...merging.ofRecord(record)), { record, line: null, was: record });
  for (const row of merging.rows) {
    const names = merging.ofRow(row);
    const key = keyOf(...names);
    const known = byKey.get(key);
    if (known && known.line !== null) {
      const what = names.join(", ");
      tell({
        file,
        line: row.line,
        column,
        value: what,
        message: `"${what}" stands on line ${known.line} and on line ${row.line}. Keep one of them.`,
      });
    } else {
      byKey.set(key, { record: merging.build(row, known?.record ?? null), line: row.line, was: known?.record ?? null });
    }
  }
  return { file, entries: [...byKey.values()], byKey };
}

export type Change = "added" | "changed" | "same" | "untouched";

export function changeOf<Record>({ record, line, was }: Entry<Record>): Change {
  if (line === null) return "untouched";
  if (was === null) return "added";
  return equal(record, was) ? "same" : "changed";
}

/** What has to be written: the new and the different. */
export function written<Record>({ entries }: Merged<Record>): readonly Record[] {
  return entries.filter((entry) => ["added", "changed"].includes(changeOf(entry))).map(({ record }) => record);
}

export const added = <Record>({ entries }: Merged<Record>): readonly Record[] =>
  entries.filter(({ was }) => was === null).map(({ record }) => record);

/** Equal in what they say; the order of an object's fields says nothing. */
export function equal(left: unknown, right: unknown): boolean {
  if (Object.is(left, right)) return true;
  if (typeof left !== "object" || typeof right !== "object" || left === null || right === null) return false;
  if (Array.isArray(left) !== Array.isArray(right)) return false;
  const fields = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...fields].every((field) => equal(Reflect.get(left, field), Reflect.get(right, field)));
}

/** Where a name is used: the place to point at when nothing is called so. */
export interface Use {
  readonly file: DepartmentFile;
  readonly line: number;
  readonly column: string;
}

/**
 * The record a name means, or null. A name that no record has is told, with the one probably meant; a name from a row that already
 * has a problem of its own is not told twice.
 */
export function refer<Record>(
  tell: Tell,
  read: DepartmentRead,
  among: Merged<Record>,
  what: string,
  name: string,
  use: Use,
): Record | null {
  const found = among.byKey.get(keyOf(name));
  if (found) return found.record;
  const { file } = among;
  if (read.unreadable.includes(file) || read.broken[file].some((broken) => keyOf(broken) === keyOf(name))) return null;
  const names = [...among.byKey.values()].map(({ record }) => labelOf(record));
  const meant = nearest(name, names);
  const advice = meant ? `Did you mean "${meant}"?` : `Add it to ${file}, or correct the name here.`;
  tell({ ...use, value: name, message: `No ${what} is called "${name}". ${advice}` });
  return null;
}

const labelOf = (record: unknown): string => {
  const { name, tag, serial } = record as { readonly name?: string; readonly tag?: string; readonly serial?: string };
  return name ?? tag ?? serial ?? "";
};
