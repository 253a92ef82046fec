import { dayText, numberText } from "@/app/_parts/format";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { CompletionReport } from "@/lib/schemas/report";
import chart from "./chart.module.css";
import { type DayCount, dayCounts } from "./day-counts";

const HEIGHT = 100;
/** A frame that scrolls must be reachable by keyboard (WCAG 2.1.1), although it is no control. */
const REACHABLE = { tabIndex: 0 } as const;

/** One bar a day, with its percentage: what was done in time from the ground up, late on top of it and half as wide, what was missed left hollow. A list for a screen reader. */
export function CompletionChart({ report }: { report: CompletionReport }) {
  const days = dayCounts(report);
  return (
    <>
      <section className={chart.frame} aria-label="Checks done by day" {...REACHABLE}>
        <ol className={chart.columns}>
          {days.map((day) => (
            <li key={day.date} className={chart.column}>
              <span aria-hidden="true">{day.due === 0 ? "n/a" : numberText((100 * day.done) / day.due, 0)}</span>
              <Bar day={day} />
              <span className={chart.date} aria-hidden="true">
                {dayText(day.date).split(" ")[0]}
                <br />
                {Number(day.date.slice(8))}
              </span>
              <VisuallyHidden>{inWords(day)}</VisuallyHidden>
            </li>
          ))}
        </ol>
      </section>
      <ul className={chart.key} aria-hidden="true">
        <KeyEntry word="done in time" day={{ due: 1, done: 1, late: 0 }} />
        <KeyEntry word="late" day={{ due: 1, done: 0, late: 1 }} />
        <KeyEntry word="missed" day={{ due: 1, done: 0, late: 0 }} />
      </ul>
    </>
  );
}

function KeyEntry({ word, day }: { word: string; day: Omit<DayCount, "date"> }) {
  return (
    <li>
      <span className={chart.keyBar}>
        <Bar day={day} />
      </span>
      {word}
    </li>
  );
}

function inWords({ date, due, done, late }: DayCount): string {
  if (due === 0) return `${dayText(date)}: nothing due`;
  return `${dayText(date)}: ${done} of ${due} done in time, ${late} late, ${due - done - late} missed`;
}

function Bar({ day: { due, done, late } }: { day: Omit<DayCount, "date"> }) {
  const share = (count: number) => (due === 0 ? 0 : (HEIGHT * count) / due);
  return (
    <svg className={chart.bar} viewBox={`0 0 10 ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      <rect className={due === 0 ? chart.none : chart.due} width="10" height={HEIGHT} />
      <rect className={chart.done} y={HEIGHT - share(done)} width="10" height={share(done)} />
      <rect className={chart.late} x="2.5" y={HEIGHT - share(done) - share(late)} width="5" height={share(late)} />
    </svg>
  );
}
