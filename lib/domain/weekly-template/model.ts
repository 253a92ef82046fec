import type { Need } from "@/lib/domain/vocabulary";
import type { LocalTime } from "@/lib/units/time";

/** 1 is Monday, 7 is Sunday (ISO 8601). */
export const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7] as const;
export type Weekday = (typeof WEEKDAYS)[number];

export const WEEKDAY_NAMES: Readonly<Record<Weekday, string>> = {
  1: "Monday",
  2: "Tuesday",
  3: "Wednesday",
  4: "Thursday",
  5: "Friday",
  6: "Saturday",
  7: "Sunday",
};

/** What a list asks of its room, on a weekday as on one day. Needs left empty are unknown, and stand for what nearly every list needs. */
export interface ListAsked {
  readonly firstCase: LocalTime | null;
  readonly ends: LocalTime | null;
  readonly needs: readonly Need[];
  readonly setUpMinutes: number;
}

/** A weekday that is not in a template says nothing: the room is open, and nobody knows when it begins. */
export type DayAsked = { readonly weekday: Weekday } & (
  | { readonly closed: true }
  | ({ readonly closed: false } & ListAsked)
);
