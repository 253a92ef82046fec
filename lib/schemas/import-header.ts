import type { DepartmentFile, Problem } from "@/lib/domain/department/model";
import { nearest } from "@/lib/domain/nearest";
import type { Columns } from "@/lib/schemas/import-columns";
import type { CsvTable } from "@/lib/schemas/import-csv";

/** A column's name as it is compared: letter case and the kind of space say nothing. */
export const headerOf = (cell: string): string => cell.toLowerCase().replace(/[\s_]+/g, " ");

/** What is wrong with the header row: unknown, missing and double columns, each by its name. */
export function headerProblems(file: DepartmentFile, columns: Columns, { header, records }: CsvTable): Problem[] {
  const given = header.cells.map(headerOf);
  const known = Object.values(columns).map((column) => column.header);
  const at = (column: string, message: string): Problem => ({
    file,
    line: header.line,
    column,
    value: column,
    message,
  });
  const unknown = header.cells.flatMap((cell, index) => {
    const name = given[index] ?? "";
    // Spreadsheets end rows with separators; a column without a name is wrong only where it says something.
    if (name === "" && records.every(({ cells }) => (cells[index] ?? "") === "")) return [];
    if (name === "")
      return [at(`column ${index + 1}`, `Column ${index + 1} has no name but is filled in. Name it, or empty it.`)];
    if (known.some((one) => headerOf(one) === name)) {
      return given.indexOf(name) === index ? [] : [at(cell, `The column "${cell}" stands twice. Keep one of them.`)];
    }
    const meant = nearest(name, known);
    return [
      at(
        cell,
        `There is no column "${cell}" in ${file}${meant ? `; did you mean "${meant}"?` : `. Its columns are: ${known.join(", ")}.`}`,
      ),
    ];
  });
  const missing = Object.values(columns).filter((column) => !column.empty && !given.includes(headerOf(column.header)));
  return [
    ...unknown,
    ...missing.map((column) => ({
      ...at(column.header, `The column "${column.header}" is missing from ${file}.`),
      value: null,
    })),
  ];
}
