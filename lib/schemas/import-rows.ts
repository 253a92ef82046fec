import type { DepartmentFile, DepartmentRead, DepartmentRows, Problem } from "@/lib/domain/department/model";
import { type Column, type Columns, IMPORT_COLUMNS } from "@/lib/schemas/import-columns";
import { type CsvRecord, type CsvTable, readCsv } from "@/lib/schemas/import-csv";
import { headerOf, headerProblems } from "@/lib/schemas/import-header";
import { IMPORT_FILES } from "@/lib/schemas/set-up";
import { addDays, type LocalDate } from "@/lib/units/time";

type Row = Readonly<Record<string, unknown>> & { readonly line: number };

/** What one file gave. */
interface FileRead {
  readonly rows: readonly Row[];
  readonly problems: readonly Problem[];
  readonly broken: readonly string[];
  readonly readable: boolean;
  readonly count: number;
}

const NOTHING: FileRead = { rows: [], problems: [], broken: [], readable: true, count: 0 };

/** Reads a department's files to typed rows and every problem of form; what the rows mean together is decided in the domain. */
export function readDepartment(
  files: Readonly<Partial<Record<DepartmentFile, string>>>,
  today: LocalDate,
): DepartmentRead {
  const read = everyFile((file) => {
    const text = files[file];
    return text === undefined ? NOTHING : readFile(file, text, today);
  });
  return {
    given: IMPORT_FILES.filter((file) => files[file] !== undefined),
    // The columns' types are those of the rows, file by file: the assertion below would not compile otherwise.
    rows: everyFile((file) => read[file].rows) as unknown as DepartmentRows,
    problems: IMPORT_FILES.flatMap((file) => read[file].problems),
    broken: everyFile((file) => read[file].broken),
    unreadable: IMPORT_FILES.filter((file) => !read[file].readable),
    rowCounts: everyFile((file) => read[file].count),
  };
}

function everyFile<Value>(make: (file: DepartmentFile) => Value): Record<DepartmentFile, Value> {
  return Object.fromEntries(IMPORT_FILES.map((file) => [file, make(file)])) as Record<DepartmentFile, Value>;
}

type RowsOf<File extends DepartmentFile> = {
  readonly [Field in keyof (typeof IMPORT_COLUMNS)[File]]: (typeof IMPORT_COLUMNS)[File][Field] extends {
    readonly cell: { readonly _output: infer Value };
  }
    ? Value
    : never;
} & { readonly line: number };
type Fits<File extends DepartmentFile> = RowsOf<File> extends DepartmentRows[File][number] ? true : never;
/** Compiles only while every file's columns give exactly the fields that the domain's row has. */
export const COLUMNS_FIT: { readonly [File in DepartmentFile]: Fits<File> } = {
  suites: true,
  zones: true,
  stores: true,
  rooms: true,
  models: true,
  workstations: true,
  cylinders: true,
  vaporizers: true,
  absorbent: true,
  sensors: true,
  service: true,
  people: true,
  list: true,
};

function readFile(file: DepartmentFile, text: string, today: LocalDate): FileRead {
  const reading = readCsv(text);
  if (!reading.ok) {
    const problem = { file, line: reading.line, column: null, value: null, message: reading.message };
    return { ...NOTHING, problems: [problem], readable: false };
  }
  const columns: Columns = IMPORT_COLUMNS[file];
  const problems = headerProblems(file, columns, reading.table);
  if (problems.length > 0) return { ...NOTHING, problems, readable: false, count: reading.table.records.length };
  return readRows(file, columns, reading.table, today);
}

function readRows(file: DepartmentFile, columns: Columns, table: CsvTable, today: LocalDate): FileRead {
  const header = table.header.cells.map(headerOf);
  const fields = Object.entries(columns).map(([field, column]) => ({
    field,
    column,
    index: header.indexOf(headerOf(column.header)),
  }));
  const rows: Row[] = [];
  const problems: Problem[] = [];
  const broken: string[] = [];
  for (const record of table.records) {
    const read = readRow(file, fields, record, header.length, today);
    if (read.problems.length === 0) rows.push(read.row);
    // The first column names the thing; whoever refers to a row that failed is not told a second time.
    else broken.push(record.cells[fields[0]?.index ?? 0] ?? "");
    problems.push(...read.problems);
  }
  return { rows, problems, broken, readable: true, count: table.records.length };
}

interface Field {
  readonly field: string;
  readonly column: Column;
  readonly index: number;
}

function readRow(
  file: DepartmentFile,
  fields: readonly Field[],
  record: CsvRecord,
  width: number,
  today: LocalDate,
): { row: Row; problems: Problem[] } {
  const { line, cells } = record;
  if (cells.slice(width).some((cell) => cell !== "")) {
    const message = `The row has ${cells.length} cells and the header ${width}. Put a cell that holds the separator itself in quotes.`;
    return { row: { line }, problems: [{ file, line, column: null, value: cells.slice(width).join(" "), message }] };
  }
  const row: Record<string, unknown> = {};
  const problems: Problem[] = [];
  for (const { field, column, index } of fields) {
    const read = readCell(column, cells[index] ?? "", today);
    if (read.ok) row[field] = read.value;
    else
      problems.push({
        file,
        line,
        column: column.header,
        value: column.secret ? null : (cells[index] ?? ""),
        message: read.message,
      });
  }
  return { row: { ...row, line }, problems };
}

function readCell(
  column: Column,
  text: string,
  today: LocalDate,
): { ok: true; value: unknown } | { ok: false; message: string } {
  if (text === "")
    return column.empty
      ? { ok: true, value: column.empty.means }
      : { ok: false, message: `"${column.header}" is empty; it must be filled in.` };
  const parsed = column.cell.safeParse(column.dated ? dateOf(text, today) : text);
  if (parsed.success) return { ok: true, value: parsed.data };
  return { ok: false, message: sentence(column, text, parsed.error.issues[0]?.message ?? "is not right.") };
}

/** Examples must be importable on any day, so a date may be counted from the day of the import. */
function dateOf(text: string, today: LocalDate): string {
  const counted = /^today(?:\s*([+-])\s*(\d{1,5}))?$/i.exec(text);
  return counted ? addDays(today, Number(`${counted[1] ?? "+"}${counted[2] ?? 0}`)) : text;
}

/** Cell messages that begin with a verb are about the value itself; the others already name what they are about. */
function sentence(column: Column, text: string, message: string): string {
  const about = /^(is|must|has|holds|names)\b/.test(message)
    ? `${column.secret ? `The ${column.header}` : `"${text}"`} `
    : "";
  return `${about}${message}${message.endsWith(".") || message.endsWith("?") ? "" : "."}`;
}
