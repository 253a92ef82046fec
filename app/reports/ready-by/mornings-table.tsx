import Link from "next/link";
import { dayText, minutesText, numberText } from "@/app/_parts/format";
import { DataTable } from "@/app/_ui/data-table";
import { type Range, rangeHref } from "@/app/reports/range";
import { ShareBar } from "@/app/reports/share-bar";
import type { ReadyByMorning } from "@/lib/schemas/report-ready-by";
import styles from "./ready-by.module.css";

interface MorningsProps {
  mornings: readonly ReadyByMorning[];
  path: string;
  range: Range;
  shown: string | null;
}

/** One line a morning, the newest first, with its share drawn; each opens the morning above. */
export function MorningsTable({ mornings, path, range, shown }: MorningsProps) {
  if (mornings.length === 0) return null;
  return (
    <DataTable name="Ready by the first case, by morning">
      <thead>
        <tr>
          <th scope="col">Morning</th>
          <th scope="col">Ready in time</th>
          <th scope="col" className={styles.wide}>
            Share
          </th>
          <th scope="col">Later</th>
          <th scope="col">Not that day</th>
          <th scope="col">Time left, median</th>
        </tr>
      </thead>
      <tbody>
        {[...mornings].reverse().map((morning) => (
          <tr key={morning.date} className={morning.date === shown ? styles.shownRow : undefined}>
            <th scope="row">
              <Link
                href={rangeHref(path, range, { day: morning.date })}
                prefetch={false}
                scroll={false}
                aria-current={morning.date === shown ? "true" : undefined}
                className={styles.day}
              >
                {dayText(morning.date)}
              </Link>
            </th>
            <td>
              {morning.inTime} of {morning.running}
              {morning.notYet > 0 ? `, ${morning.notYet} still to come` : ""}
            </td>
            <td className={styles.wide}>
              <ShareBar of={morning.running} inTime={morning.inTime} late={morning.late} />
            </td>
            <td>{morning.late}</td>
            <td>{morning.never}</td>
            <td>{leftText(morning.medianMinutesBefore)}</td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}

const leftText = (minutes: number | null): string => {
  if (minutes === null) return "n/a";
  return minutes < 0 ? `${numberText(-minutes, 0)} min late` : minutesText(minutes);
};
