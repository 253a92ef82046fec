import { completionQuery } from "@/lib/schemas/report";
import { addDays, type LocalDate } from "@/lib/units/time";

export type SearchParams = Record<string, string | string[] | undefined>;

export interface Range {
  readonly from: string;
  readonly to: string;
}

/** The first value of a parameter that may be given several times. */
export const first = (value: string | string[] | undefined): string | undefined =>
  Array.isArray(value) ? value[0] : value;

const inAddress = (range: Range, more: Record<string, string> = {}): string =>
  new URLSearchParams({ ...range, ...more }).toString();

/** A report of these days, by its path; `more` names what is opened in it. */
export const rangeHref = (path: string, range: Range, more: Record<string, string> = {}): string =>
  `${path}?${inAddress(range, more)}`;
export const cellHref = (range: Range, room: string, day: string): string =>
  `/reports?${inAddress(range, { room, day })}#cell`;
export const csvHref = (range: Range): string => `/api/v1/reports/check-completion.csv?${inAddress(range)}`;

const SHOWN_AT_FIRST = 14;

/** The days asked for in the address, or the last two weeks with what was wrong with the address. */
export function askedRange(params: SearchParams, today: LocalDate): { range: Range; problem: string | null } {
  const usual = { from: addDays(today, 1 - SHOWN_AT_FIRST), to: today };
  const asked = completionQuery.safeParse({ from: first(params.from) || usual.from, to: first(params.to) || usual.to });
  if (asked.success) return { range: asked.data, problem: null };
  const said = asked.error.issues.map(({ path, message }) => `${path.join(".")} ${message}`).join("; ");
  return { range: usual, problem: `${said}. The last ${SHOWN_AT_FIRST} days are shown instead.` };
}
