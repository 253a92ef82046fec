import { z } from "zod";

/**
 * A backup is one gzip file of lines. The first says what it is; then for each table one line with its name and columns, its rows in
 * PostgreSQL's own COPY text, and a line `\.`; the last line has the counts, the roots of the record and the SHA-256 of all before it.
 * COPY text escapes line ends and backslashes, so no row can look like the end of its table.
 */
export const FORMAT = "yokeboard-backup/1";
export const END_OF_ROWS = "\\.";

const name = z.string().regex(/^(public|fact|derived|history)\.[a-z_]+$/);
const column = z.string().regex(/^("[a-z_]+"|[a-z_0-9]+)$/);

export const beginning = z.object({
  format: z.literal(FORMAT),
  takenAt: z.iso.datetime(),
  /** The migrations the database had: what its tables looked like. */
  migrations: z.array(z.string().regex(/^\d{4}_[a-z0-9_]+$/)).min(1),
});
export type Beginning = z.infer<typeof beginning>;

export const section = z.object({ table: name, columns: z.array(column).min(1) });
export type Section = z.infer<typeof section>;

export const root = z.object({ facility: z.uuid(), size: z.int().min(0), root: z.string().regex(/^[0-9a-f]{64}$/) });
export type Root = z.infer<typeof root>;

export const ending = z.object({
  rows: z.record(name, z.int().min(0)),
  /** The root of each facility's record at the moment of the backup. */
  roots: z.array(root),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});
export type Ending = z.infer<typeof ending>;
