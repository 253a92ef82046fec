import { CsvError, parse } from "csv-parse/sync";

/** One data row of a file, with the line it begins on. */
export interface CsvRecord {
  readonly line: number;
  readonly cells: readonly string[];
}

export interface CsvTable {
  readonly header: CsvRecord;
  readonly records: readonly CsvRecord[];
}

export type CsvReading =
  | { readonly ok: true; readonly table: CsvTable }
  | { readonly ok: false; readonly line: number; readonly message: string };

const unreadable = (line: number, message: string): CsvReading => ({ ok: false, line, message });

/** Bytes that were no UTF-8 arrive as U+FFFD, whoever decoded them; half a character would become one. Neither is text, nor is code 0. */
const SPOILT = /[\uFFFD\p{Cs}]/u;

/** A file's text as rows of cells: UTF-8 with or without its mark, comma or semicolon, quoted cells, any line end. */
export function readCsv(given: string): CsvReading {
  // csv-parse counts a carriage return and its line feed inside a quoted cell as two lines.
  const text = given.replace(/\r\n?/g, "\n");
  const spoilt = [text.search(SPOILT), text.indexOf("\0")].find((at) => at >= 0);
  if (spoilt !== undefined) {
    return unreadable(lineAt(text, spoilt), "The file is not UTF-8 text. Save it as CSV UTF-8 and import it again.");
  }
  const rows: CsvRecord[] = [];
  const keep = (cells: string[], { lines }: { readonly lines: number }) => {
    rows.push({ line: lines - breaksIn(cells), cells });
    return null;
  };
  try {
    parse(text, { bom: true, delimiter: delimiterOf(text), on_record: keep, relax_column_count: true, trim: true });
  } catch (error) {
    if (error instanceof CsvError) return unreadable(nextLine(rows), broken(error));
    throw error;
  }
  const [header, ...records] = rows.filter(({ cells }) => cells.some((cell) => cell !== ""));
  return header
    ? { ok: true, table: { header, records } }
    : unreadable(1, "The file is empty. The first row must name the columns; download the template to see them.");
}

/** The parser names the line on which a row ends; one with line breaks in its cells began earlier. */
const breaksIn = (cells: readonly string[]): number =>
  cells.reduce((count, cell) => count + cell.split("\n").length - 1, 0);

/** The line after the last good row: a quote that is never closed is only noticed at the end of the file. */
function nextLine(rows: readonly CsvRecord[]): number {
  const last = rows.at(-1);
  return last ? last.line + breaksIn(last.cells) + 1 : 1;
}

/** The header decides, since its names hold neither sign: whichever of the two it has more of. */
function delimiterOf(text: string): "," | ";" {
  const header = /[^\s\uFEFF].*/.exec(text)?.[0] ?? "";
  return header.split(";").length > header.split(",").length ? ";" : ",";
}

const lineAt = (text: string, index: number): number => text.slice(0, index).split("\n").length;

function broken(error: CsvError): string {
  if (error.code === "CSV_QUOTE_NOT_CLOSED")
    return 'A cell begins with a quote (") that is never closed. Close it, or write the cell without quotes.';
  if (error.code === "INVALID_OPENING_QUOTE" || error.code === "CSV_INVALID_CLOSING_QUOTE") {
    return 'A quote (") stands in the middle of a cell. Put the whole cell in quotes and write a quote inside it twice.';
  }
  return `The file is not CSV: ${error.message}`;
}
