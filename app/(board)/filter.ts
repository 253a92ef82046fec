import { needsAttention } from "@/lib/domain/morning";
import type { BoardRow } from "@/lib/schemas/board";

export const SHOWN = ["problems", "to-check", "mine"] as const;
export type Shown = (typeof SHOWN)[number];

/** Which rooms somebody wants to see. It stands in the address, so that it can be kept, sent and gone back to. */
export interface BoardFilter {
  readonly suite: string | null;
  readonly show: Shown | null;
  readonly find: string;
}

export const EVERY_ROOM: BoardFilter = { suite: null, show: null, find: "" };

/** What an address asks for; a word it does not know asks for nothing. */
export function filterOf(params: Pick<URLSearchParams, "get">): BoardFilter {
  const show = params.get("show");
  return {
    suite: params.get("suite") || null,
    show: SHOWN.find((one) => one === show) ?? null,
    find: params.get("find")?.slice(0, 40) ?? "",
  };
}

export function addressOf({ suite, show, find }: BoardFilter): string {
  const params = new URLSearchParams();
  if (suite !== null) params.set("suite", suite);
  if (show !== null) params.set("show", show);
  if (find.trim() !== "") params.set("find", find);
  return params.size === 0 ? "/" : `/?${params}`;
}

export const isFiltered = (filter: BoardFilter): boolean => addressOf(filter) !== "/";

/** Nobody has looked yet, which early in the morning is as it should be. */
export const isToCheck = (row: BoardRow): boolean =>
  needsAttention(row) && row.state === "to-check" && row.whenInUse !== "act-now";

export const isProblem = (row: BoardRow): boolean => needsAttention(row) && !isToCheck(row);

/** Somebody of that name has claimed work here. */
const isOf = (row: BoardRow, me: string): boolean => row.work.some(({ person }) => person === me);

/** The rooms that a filter leaves. While states are not known it cannot go by them, and leaves every room of the suite. */
export function shownRooms(
  rooms: readonly BoardRow[],
  { suite, show, find }: BoardFilter,
  me: string,
  known: boolean,
): BoardRow[] {
  const wanted = find.trim().toLowerCase();
  const test: Record<Shown, (row: BoardRow) => boolean> = {
    problems: isProblem,
    "to-check": isToCheck,
    mine: (row) => isOf(row, me),
  };
  return rooms.filter(
    (row) =>
      (suite === null || row.suite === suite) &&
      (show === null || !known || test[show](row)) &&
      (wanted === "" || row.name.toLowerCase().includes(wanted)),
  );
}

/** Suites in the order in which they are walked. */
export function suitesOf(rooms: readonly BoardRow[]): string[] {
  const first = new Map<string, number>();
  for (const { suite, walkingOrder } of rooms)
    first.set(suite, Math.min(walkingOrder, first.get(suite) ?? Number.POSITIVE_INFINITY));
  return [...first].sort(([, left], [, right]) => left - right).map(([suite]) => suite);
}
