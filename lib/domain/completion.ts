import type { LocalDate } from "@/lib/units/time";

/** One room on one check day, as far as "was the check done" needs it. Instants are milliseconds. */
export interface CompletionDay {
  /** The room has a list that day, or a case was started in it. */
  readonly runs: boolean;
  readonly closed: boolean;
  readonly firstCase: number | null;
  /** When the equipment check of that day was first signed. */
  readonly checkedAt: number | null;
  /** The day is over, or its first case has come. */
  readonly over: boolean;
}

export type CompletionState = "done" | "late" | "missed" | "closed" | "not-due";

/**
 * Was the daily check done, and before the first case? Closed days and days without a list are out of the count;
 * a day that is not over yet is not missed. Common practice, no source.
 */
export function completionState({ runs, closed, firstCase, checkedAt, over }: CompletionDay): CompletionState {
  if (closed) return "closed";
  if (!runs) return "not-due";
  if (checkedAt === null) return over ? "missed" : "not-due";
  return firstCase !== null && checkedAt > firstCase ? "late" : "done";
}

/** Done in time, of what was due. A late check was due and not done in time. */
export function completionCount(states: readonly CompletionState[]): { readonly done: number; readonly due: number } {
  return {
    done: states.filter((state) => state === "done").length,
    due: states.filter((state) => state === "done" || state === "late" || state === "missed").length,
  };
}

/** Percent with one decimal; null, shown as n/a, when nothing was due: 0 of 0 is neither 0 nor 100 percent. */
export function completionPercent({ done, due }: { readonly done: number; readonly due: number }): number | null {
  return due === 0 ? null : Math.round((done / due) * 1000) / 10;
}

/** Every date from one to another, both included. */
export function datesBetween(from: LocalDate, to: LocalDate, next: (date: LocalDate) => LocalDate): LocalDate[] {
  const dates: LocalDate[] = [];
  for (let date = from; date <= to; date = next(date)) dates.push(date);
  return dates;
}
