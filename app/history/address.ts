import type { z } from "zod";
import type { historyQuery } from "@/lib/schemas/history";

export type HistoryQuery = z.output<typeof historyQuery>;

export type SearchParams = Record<string, string | string[] | undefined>;

/** The first value of each parameter; an empty field of the filter means "all". */
export function queryIn(params: SearchParams): Record<string, string> {
  const query: Record<string, string> = {};
  for (const name of ["room", "person", "before", "limit"]) {
    const value = params[name];
    const first = Array.isArray(value) ? value[0] : value;
    if (first) query[name] = first;
  }
  return query;
}

export function historyHref(query: Partial<HistoryQuery>): string {
  const params = new URLSearchParams();
  if (query.room) params.set("room", query.room);
  if (query.person) params.set("person", query.person);
  if (query.before !== undefined) params.set("before", String(query.before));
  const text = params.toString();
  return text ? `/history?${text}` : "/history";
}
