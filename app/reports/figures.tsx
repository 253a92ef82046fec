import { numberText } from "@/app/_parts/format";
import type { CompletionReport } from "@/lib/schemas/report";
import styles from "./reports.module.css";

/** The answer first. Nothing due is "n/a", never 0 % and never 100 %. */
export function Figures({ report }: { report: CompletionReport }) {
  const cells = report.rooms.flatMap(({ cells }) => cells);
  const count = (state: string) => cells.filter((cell) => cell.state === state).length;
  return (
    <p className={styles.answer}>
      <strong>{report.percent === null ? "n/a" : `${numberText(report.percent)} %`}</strong>{" "}
      {report.due === 0
        ? "No check was due in these days."
        : `of the checks due were done in time: ${numberText(report.done)} of ${numberText(report.due)}.`}{" "}
      <span className={styles.soft}>
        {numberText(count("late"))} late, {numberText(count("missed"))} missed; {numberText(count("closed"))} closed
        room-days are not counted.
      </span>
    </p>
  );
}
