import { naturalOrder } from "@/lib/domain/natural-order";
import type { WallRow } from "@/lib/schemas/wall";

/** The rooms of one suite, or the part of it that one page holds. */
export interface WallSuite {
  readonly name: string;
  readonly rooms: readonly WallRow[];
}

export interface WallGrid {
  readonly columns: number;
  readonly lines: number;
  /** Suites whose name stands on a line of its own above their rooms; 0 when the names stand in cells among the rooms. */
  readonly strips: number;
  /** Lines of small words in a cell. */
  readonly notes: NoteLines;
}

export type NoteLines = 1 | 2 | 3;

/** More rooms than this cannot be read from three metres on one screen; they turn page by page. */
export const MOST_ON_A_PAGE = 48;

/** Suites in the order in which they are walked, and so their rooms: a wall is read by place, so no state ever moves a room. */
export function wallSuites(rooms: readonly WallRow[]): WallSuite[] {
  const inOrder = [...rooms].sort(
    (left, right) => left.walkingOrder - right.walkingOrder || naturalOrder(left.name, right.name),
  );
  const suites = new Map<string, WallRow[]>();
  for (const row of inOrder) suites.set(row.suite, [...(suites.get(row.suite) ?? []), row]);
  return [...suites].map(([name, inside]) => ({ name, rooms: inside }));
}

/** As few pages as hold all rooms, about equally full; a suite may go on over the page. */
export function wallPages(suites: readonly WallSuite[]): WallSuite[][] {
  const total = suites.reduce((sum, { rooms }) => sum + rooms.length, 0);
  const onEach = Math.ceil(total / Math.max(1, Math.ceil(total / MOST_ON_A_PAGE)));
  const pages: WallSuite[][] = [];
  let left = 0;
  for (const { name, rooms } of suites) {
    for (let from = 0; from < rooms.length; ) {
      if (left === 0) {
        pages.push([]);
        left = onEach;
      }
      const part = rooms.slice(from, from + left);
      pages.at(-1)?.push({ name, rooms: part });
      from += part.length;
      left -= part.length;
    }
  }
  return pages;
}

/** What a sentence of three lines leaves to the rooms on a screen of 16 : 9 that is 1920 wide. */
const WIDTH = 1872;
const HEIGHT = 866;
const GAP = 8;
const STRIP = 40;
/** What a cell needs, in the size of its small words: the longest state's word across; name, word and notes down. */
const ACROSS = 10.2;
const DOWN: Record<NoteLines, number> = { 1: 5.15, 2: 6.35, 3: 7.55 };
/** In pixels of a screen 1920 wide. */
const ROOMY = 25;
const FEWEST = 3;
const MOST_COLUMNS = 10;

/** The columns and lines with which the words come out largest, with as many small words as leave them large enough. `named`: the suites' names need room. */
export function wallGrid(suites: readonly WallSuite[], named: boolean): WallGrid {
  const tried = ([3, 2] as const).map((notes) => largest(suites, notes, named));
  return (tried.find(({ size }) => size >= ROOMY) ?? largest(suites, 1, named)).grid;
}

interface Sized {
  readonly grid: WallGrid;
  readonly size: number;
}

function largest(suites: readonly WallSuite[], notes: NoteLines, named: boolean): Sized {
  const candidates: WallGrid[] = [];
  const counts = suites.map(({ rooms }) => rooms.length);
  const cells = counts.reduce((sum, count) => sum + count, named ? counts.length : 0);
  for (let columns = FEWEST; columns <= MOST_COLUMNS; columns += 1) {
    const inStrips = counts.reduce((sum, count) => sum + Math.ceil(count / columns), 0);
    candidates.push({ columns, lines: inStrips, strips: counts.length, notes });
    candidates.push({ columns, lines: Math.ceil(cells / columns), strips: 0, notes });
  }
  return candidates
    .map((grid) => ({ grid, size: sizeIn(grid) }))
    .reduce((best, one) => (one.size > best.size ? one : best));
}

/** The size of the small words, in pixels of a screen 1920 wide. */
export function sizeIn({ columns, lines, strips, notes }: WallGrid): number {
  const width = (WIDTH - (columns - 1) * GAP) / columns;
  const height = (HEIGHT - strips * STRIP - (lines + strips - 1) * GAP) / Math.max(1, lines);
  return Math.min(width / ACROSS, height / DOWN[notes]);
}
