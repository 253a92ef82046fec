import { stringify } from "csv-stringify/sync";
import type { CompletionReport } from "@/lib/schemas/report";
import { dateIn, instantOf, timeIn } from "@/lib/units/time";

type Room = CompletionReport["rooms"][number];
type Cell = Room["cells"][number];

const HEADER = [
  "date",
  "suite",
  "room",
  "check",
  "equipment checked at",
  "equipment checked by",
  "provider's check at",
  "provider's check by",
  "first case",
  "failures",
  "swaps",
] as const;

const WORDS: Readonly<Record<Cell["state"], string>> = {
  done: "done",
  late: "late",
  missed: "missed",
  closed: "closed",
  "not-due": "not due",
};

/** The completion report as a file: a row a room and day in the facility's own times, and the sums below. */
export function completionCsv(report: CompletionReport, timeZone: string): string {
  const rows = report.rooms.flatMap((room) => room.cells.map((cell) => rowOf(room, cell, timeZone)));
  const sums = report.rooms.map(({ name, suite, done, due }) => ["total", suite, name, share(done, due)]);
  const all = ["total", "", "all rooms", share(report.done, report.due)];
  return stringify([[...HEADER], ...[...rows, ...sums, all].map((row) => padded(row).map(defused))], {
    record_delimiter: "\r\n",
  });
}

function rowOf({ name, suite }: Room, cell: Cell, timeZone: string): string[] {
  const at = (timestamp: string | null) =>
    timestamp === null ? "" : `${dateIn(timeZone, instantOf(timestamp))} ${timeIn(timeZone, instantOf(timestamp))}`;
  return [
    cell.date,
    suite,
    name,
    WORDS[cell.state],
    at(cell.equipmentAt),
    cell.equipmentBy ?? "",
    at(cell.providerAt),
    cell.providerBy ?? "",
    at(cell.firstCase),
    cell.failures.join("; "),
    cell.swaps.join("; "),
  ];
}

/** Nothing due is not nothing done: a percentage of none would be a lie either way. */
const share = (done: number, due: number): string =>
  due === 0 ? "n/a (0 due)" : `${((done / due) * 100).toFixed(1)} % (${done} of ${due})`;

const padded = (row: readonly string[]): string[] => HEADER.map((_, index) => row[index] ?? "");

/** A spreadsheet runs a cell that begins like a formula; a leading apostrophe keeps it text. */
const defused = (cell: string): string => (/^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell);
