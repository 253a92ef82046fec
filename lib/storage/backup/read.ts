import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { createGunzip } from "node:zlib";
import type { z } from "zod";
import { type Beginning, beginning, END_OF_ROWS, type Ending, ending, type Section, section } from "./format";

/** A file that is no backup, or not a whole one; the text says what is wrong and where. */
export class BadBackup extends Error {}

export interface Contents {
  readonly beginning: Beginning;
  readonly ending: Ending;
}

/** Reads a backup from end to end and writes nothing: whole, unchanged, and its counts right. */
export async function checkBackup(file: string): Promise<Contents> {
  const hash = createHash("sha256");
  const rows: Record<string, number> = {};
  let first: Beginning | undefined;
  let table: string | null = null;
  let number = 0;
  for await (const line of linesOf(file)) {
    number += 1;
    const text = line.subarray(0, -1);
    if (!first) first = parsed(beginning, text, number, "This is no backup of Yokeboard");
    else if (table !== null) {
      if (isEnd(text)) table = null;
      else rows[table] = (rows[table] ?? 0) + 1;
    } else if (text[0] === OPEN_BRACE && text.includes('"sha256"')) {
      const last = parsed(ending, text, number, "The last line is damaged");
      requireSame(last, rows, hash.digest("hex"));
      return { beginning: first, ending: last };
    } else {
      table = parsed(section, text, number, "A table's heading is damaged").table;
      rows[table] = 0;
    }
    hash.update(line);
  }
  throw new BadBackup(`${file} was cut off: after ${number} lines its last line is missing.`);
}

const OPEN_BRACE = "{".charCodeAt(0);
const isEnd = (text: Buffer): boolean => text.length === END_OF_ROWS.length && text.toString("latin1") === END_OF_ROWS;

function requireSame(last: Ending, rows: Readonly<Record<string, number>>, digest: string): void {
  if (last.sha256 !== digest) throw new BadBackup("The file was changed: its digest is not the one on its last line.");
  const names = new Set([...Object.keys(rows), ...Object.keys(last.rows)]);
  const wrong = [...names].find((name) => rows[name] !== last.rows[name]);
  if (wrong !== undefined)
    throw new BadBackup(
      `${wrong} has ${rows[wrong] ?? 0} rows in the file, and ${last.rows[wrong] ?? 0} on its last line.`,
    );
}

function parsed<T>(schema: z.ZodType<T>, text: Buffer, line: number, problem: string): T {
  try {
    return schema.parse(JSON.parse(text.toString("utf8")));
  } catch {
    throw new BadBackup(`${problem} (line ${line}).`);
  }
}

/** One table after the other: its heading, and its rows as PostgreSQL takes them in. The rows must be read before the next table. */
export async function* tablesIn(file: string): AsyncGenerator<Section & { rows: AsyncGenerator<Buffer> }> {
  const lines = linesOf(file);
  await lines.next();
  for (;;) {
    const { value: line, done } = await lines.next();
    if (done || line.includes('"sha256"')) return;
    yield { ...section.parse(JSON.parse(line.toString("utf8"))), rows: rowsUntilEnd(lines) };
  }
}

async function* rowsUntilEnd(lines: AsyncGenerator<Buffer>): AsyncGenerator<Buffer> {
  for (;;) {
    const { value, done } = await lines.next();
    if (done) throw new BadBackup("The file ends in the middle of a table.");
    if (isEnd(value.subarray(0, -1))) return;
    yield value;
  }
}

const NEW_LINE = "\n".charCodeAt(0);

/** Line by line with its end, as bytes: a row may hold characters that other readers take for the end of a line. */
async function* linesOf(file: string): AsyncGenerator<Buffer> {
  const source = createReadStream(file);
  const unzipped = createGunzip();
  source.on("error", (error) => unzipped.destroy(error));
  let rest: Buffer = Buffer.alloc(0);
  try {
    for await (const chunk of source.pipe(unzipped) as AsyncIterable<Buffer>) {
      rest = rest.length === 0 ? chunk : Buffer.concat([rest, chunk]);
      let from = 0;
      for (let at = rest.indexOf(NEW_LINE, from); at !== -1; at = rest.indexOf(NEW_LINE, from)) {
        yield rest.subarray(from, at + 1);
        from = at + 1;
      }
      rest = rest.subarray(from);
    }
  } catch (error) {
    throw error instanceof BadBackup ? error : new BadBackup(reasonOf(file, error as NodeJS.ErrnoException));
  } finally {
    source.destroy();
    unzipped.destroy();
  }
}

function reasonOf(file: string, { code, message }: NodeJS.ErrnoException): string {
  if (code === "ENOENT") return `There is no file ${file}.`;
  if (code === "Z_BUF_ERROR") return `${file} was cut off: it ends in the middle.`;
  if (code?.startsWith("Z_")) return `${file} is no backup of Yokeboard, or it is damaged (${message}).`;
  return `${file} cannot be read (${code ?? message}).`;
}
