import type { CompletionReport } from "@/lib/schemas/report";

export interface DayCount {
  readonly date: string;
  readonly due: number;
  readonly done: number;
  readonly late: number;
}

/** The rooms' cells summed by day. Closed room-days and days without a list are not due. */
export function dayCounts(report: CompletionReport): DayCount[] {
  const days = new Map<string, { due: number; done: number; late: number }>();
  for (const { cells } of report.rooms) {
    for (const { date, state } of cells) {
      const day = days.get(date) ?? { due: 0, done: 0, late: 0 };
      days.set(date, day);
      if (state === "closed" || state === "not-due") continue;
      day.due += 1;
      if (state === "done") day.done += 1;
      if (state === "late") day.late += 1;
    }
  }
  return [...days]
    .map(([date, counts]) => ({ date, ...counts }))
    .sort((left, right) => left.date.localeCompare(right.date));
}
