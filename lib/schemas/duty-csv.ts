import { ROLES, type Role } from "@/lib/domain/vocabulary";
import * as cells from "@/lib/schemas/import-cells";
import { readCsv } from "@/lib/schemas/import-csv";
import { headerOf } from "@/lib/schemas/import-header";
import { addDays, type LocalDate, type LocalTime } from "@/lib/units/time";

/** One row of a roster file, as it was read. */
export interface DutyLine {
  readonly line: number;
  readonly date: LocalDate;
  readonly userId: string;
  readonly role: Role;
  readonly from: LocalTime;
  readonly to: LocalTime;
}

export interface DutyProblem {
  readonly line: number;
  readonly column: string | null;
  readonly message: string;
}

const COLUMNS = {
  date: { header: "date", cell: cells.date },
  userId: { header: "user id", cell: cells.accountName },
  role: { header: "role", cell: cells.oneOf(ROLES) },
  from: { header: "from", cell: cells.time },
  to: { header: "to", cell: cells.time },
} as const;

/** A duty roster's text as rows, or everything that keeps it from being one, by line and column. */
export function readDutyCsv(
  csv: string,
  today: LocalDate,
): { readonly lines: readonly DutyLine[]; readonly problems: readonly DutyProblem[] } {
  const reading = readCsv(csv);
  if (!reading.ok) return { lines: [], problems: [{ line: reading.line, column: null, message: reading.message }] };
  const header = reading.table.header.cells.map(headerOf);
  const missing = Object.values(COLUMNS).filter((column) => !header.includes(column.header));
  if (missing.length > 0) {
    const line = reading.table.header.line;
    const all = Object.values(COLUMNS).map((column) => column.header);
    return {
      lines: [],
      problems: missing.map((column) => ({
        line,
        column: column.header,
        message: `The column "${column.header}" is missing. The columns are: ${all.join(", ")}.`,
      })),
    };
  }
  const lines: DutyLine[] = [];
  const problems: DutyProblem[] = [];
  for (const record of reading.table.records) {
    const row: Record<string, unknown> = { line: record.line };
    const before = problems.length;
    for (const [field, { header: name, cell }] of Object.entries(COLUMNS)) {
      const text = record.cells[header.indexOf(name)] ?? "";
      const parsed = cell.safeParse(name === "date" ? dateOf(text, today) : text);
      if (parsed.success) row[field] = parsed.data;
      else
        problems.push({
          line: record.line,
          column: name,
          message: `"${text}" ${parsed.error.issues[0]?.message ?? "is not right."}`,
        });
    }
    if (problems.length === before) lines.push(row as unknown as DutyLine);
  }
  return { lines, problems };
}

/** Examples must be importable on any day, so a date may be counted from the day of the import. */
function dateOf(text: string, today: LocalDate): string {
  const counted = /^today(?:\s*([+-])\s*(\d{1,4}))?$/i.exec(text);
  return counted ? addDays(today, Number(`${counted[1] ?? "+"}${counted[2] ?? 0}`)) : text;
}
