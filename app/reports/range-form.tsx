import Link from "next/link";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { addDays, type LocalDate } from "@/lib/units/time";
import { type Range, rangeHref } from "./range";
import styles from "./reports.module.css";

const SPANS = [7, 14, 28] as const;

/** From and to, both counted; or one of three usual spans up to today. */
export function RangeForm({ path, range, today }: { path: string; range: Range; today: LocalDate }) {
  return (
    <form method="get" action={path} className={styles.range}>
      <TextField
        label="From"
        type="date"
        name="from"
        defaultValue={range.from}
        key={`from-${range.from}`}
        max={today}
      />
      <TextField label="To" type="date" name="to" defaultValue={range.to} key={`to-${range.to}`} max={today} />
      <Button type="submit">Show</Button>
      <span className={styles.spans}>
        {SPANS.map((days) => (
          <Link key={days} href={rangeHref(path, { from: addDays(today, 1 - days), to: today })} prefetch={false}>
            {days} days
          </Link>
        ))}
      </span>
    </form>
  );
}

/** What was wrong with the dates in the address, told and not silently mended. */
export function RangeProblem({ problem }: { problem: string | null }) {
  return problem === null ? null : (
    <Notice tone="heed" title="Those dates cannot be right">
      <p>{problem}</p>
    </Notice>
  );
}
