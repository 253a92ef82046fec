import { countText } from "@/app/_parts/format";
import { DataTable } from "@/app/_ui/data-table";
import { Notice } from "@/app/_ui/notice";
import styles from "@/app/set-up/set-up.module.css";
import type { ImportProblem } from "@/lib/schemas/set-up";

/** Every bad row, with its place, its value, and what would be right. */
export function ImportProblems({ problems }: { problems: readonly ImportProblem[] }) {
  const files = new Set(problems.map(({ file }) => file)).size;
  return (
    <>
      <Notice
        tone="wrong"
        title={`${countText(problems.length, "thing")} to put right in ${countText(files, "file")}. Nothing is changed.`}
        announce="alert"
      />
      <DataTable name="What is to be put right">
        <thead>
          <tr>
            <th scope="col">File</th>
            <th scope="col" className={styles.number}>
              Line
            </th>
            <th scope="col">Column</th>
            <th scope="col">Value</th>
            <th scope="col">What would be right</th>
          </tr>
        </thead>
        <tbody>
          {problems.map(({ file, line, column, value, message }) => (
            <tr key={`${file}:${line}:${column}:${message}`}>
              <td>{file}.csv</td>
              <td className={styles.number}>{line}</td>
              <td>{column ?? "whole row"}</td>
              <td className={styles.value}>{value === null ? "" : value === "" ? "empty" : value}</td>
              <td>{message}</td>
            </tr>
          ))}
        </tbody>
      </DataTable>
    </>
  );
}
