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

export const reportHref = (range: Range): string => `/reports?${inAddress(range)}`;
export const cellHref = (range: Range, room: string, day: string): string =>
  `/reports?${inAddress(range, { room, day })}#cell`;
export const csvHref = (range: Range): string => `/api/v1/reports/check-completion.csv?${inAddress(range)}`;
