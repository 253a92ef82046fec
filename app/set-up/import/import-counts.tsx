import { numberText } from "@/app/_parts/format";
import { DataTable } from "@/app/_ui/data-table";
import styles from "@/app/set-up/set-up.module.css";
import type { ImportPreview } from "@/lib/schemas/set-up";

const COLUMNS = ["rows", "added", "changed", "same"] as const;

/** What the files would do: a file imported a second time adds nothing and says so. */
export function ImportCounts({ counts }: { counts: ImportPreview["counts"] }) {
  if (counts.length === 0) return null;
  return (
    <DataTable name="What the files would change">
      <thead>
        <tr>
          <th scope="col">File</th>
          {COLUMNS.map((column) => (
            <th key={column} scope="col" className={styles.number}>
              {column === "rows" ? "Rows" : column === "same" ? "Unchanged" : column === "added" ? "Added" : "Changed"}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {counts.map((count) => (
          <tr key={count.file}>
            <th scope="row">{count.file}.csv</th>
            {COLUMNS.map((column) => (
              <td key={column} className={styles.number}>
                {numberText(count[column])}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}
