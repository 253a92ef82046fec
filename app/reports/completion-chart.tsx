import { dayText, numberText } from "@/app/_parts/format";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { CompletionReport } from "@/lib/schemas/report";
import { type DayCount, dayCounts } from "./day-counts";
import styles from "./reports.module.css";

const HEIGHT = 100;
/** A frame that scrolls must be reachable by keyboard (WCAG 2.1.1), although it is no control. */
const REACHABLE = { tabIndex: 0 } as const;

/** One bar a day: done in time from the ground up, with its percentage, late on top of it, and the rest of the frame is what was missed. A list for a screen reader. */
export function CompletionChart({ report }: { report: CompletionReport }) {
  const days = dayCounts(report);
  return (
    <section className={styles.chartFrame} aria-label="Checks done by day" {...REACHABLE}>
      <ol className={styles.chart}>
        {days.map((day) => (
          <li key={day.date} className={styles.column}>
            <span className={styles.share} aria-hidden="true">
              {day.due === 0 ? "n/a" : numberText((100 * day.done) / day.due, 0)}
            </span>
            <Bar day={day} />
            <span className={styles.date} aria-hidden="true">
              {dayText(day.date).split(" ")[0]}
              <br />
              {Number(day.date.slice(8))}
            </span>
            <VisuallyHidden>{inWords(day)}</VisuallyHidden>
          </li>
        ))}
      </ol>
    </section>
  );
}

function inWords({ date, due, done, late }: DayCount): string {
  if (due === 0) return `${dayText(date)}: nothing due`;
  return `${dayText(date)}: ${done} of ${due} done in time, ${late} late, ${due - done - late} missed`;
}

function Bar({ day: { due, done, late } }: { day: DayCount }) {
  const share = (count: number) => (due === 0 ? 0 : (HEIGHT * count) / due);
  return (
    <svg className={styles.bar} viewBox={`0 0 10 ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <rect className={due === 0 ? styles.barNone : styles.barDue} width="10" height={HEIGHT} />
      <rect className={styles.barDone} y={HEIGHT - share(done)} width="10" height={share(done)} />
      <rect className={styles.barLate} y={HEIGHT - share(done) - share(late)} width="10" height={share(late)} />
    </svg>
  );
}
