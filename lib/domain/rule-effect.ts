import type { LocalDate } from "@/lib/units/time";

/** A shipped rule that shows in more rooms than this on an ordinary morning is set wrong, and people stop reading it. */
const SET_WRONG_OVER = 0.2;

/** Owed in every room on every morning, because nobody has looked yet: that says nothing about a limit. */
const EVERY_MORNING: ReadonlySet<string> = new Set([
  "not-checked",
  "recheck-owed",
  "provider-mark-owed",
  "countersign",
]);

interface Day {
  readonly date: LocalDate;
  readonly rooms: number;
}

export interface OrdinaryMorning {
  readonly share: number | null;
  readonly setWrong: boolean;
  readonly everyMorning: boolean;
}

/** The share of rooms in which a rule shows on the middle one of some mornings; a morning on which no room ran is not looked at. */
export function ordinaryMorning(rule: string, shown: readonly Day[], ran: readonly Day[]): OrdinaryMorning {
  const shares = ran
    .filter(({ rooms }) => rooms > 0)
    .map(({ date, rooms }) => Math.min(1, (shown.find((day) => day.date === date)?.rooms ?? 0) / rooms))
    .sort((left, right) => left - right);
  const share = middle(shares);
  const everyMorning = EVERY_MORNING.has(rule);
  return { share, everyMorning, setWrong: !everyMorning && share !== null && share > SET_WRONG_OVER };
}

/** The median; of an even number the lower of the two in the middle, so that one odd morning of two marks nothing. */
const middle = (sorted: readonly number[]): number | null => sorted[Math.floor((sorted.length - 1) / 2)] ?? null;
