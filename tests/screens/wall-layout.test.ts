import { describe, expect, it } from "vitest";
import { MOST_ON_A_PAGE, sizeIn, wallGrid, wallPages, wallSuites } from "@/app/wall/wall-layout";
import { aSuite, aWallRow } from "./wall-rows";

/** Height of a capital in this type, as a part of its size; and what a reader with normal sight needs at least, in minutes of arc. */
const CAPITAL = 0.66;
const NORMAL_SIGHT_ARCMIN = 5;
/** A screen of 43 inches, 1920 pixels wide. */
const PIXEL_MM = 952 / 1920;
const arcMinutes = (mm: number, metres: number) => (Math.atan(mm / (metres * 1000)) * 180 * 60) / Math.PI;

describe("the order of the wall", () => {
  it("is the walking order, suite by suite, whatever state a room is in", () => {
    const rooms = [
      aWallRow({ roomId: "1", name: "B 1", suite: "B", walkingOrder: 3, state: "do-not-use" }),
      aWallRow({ roomId: "2", name: "A 2", suite: "A", walkingOrder: 2, state: "to-check" }),
      aWallRow({ roomId: "3", name: "A 10", suite: "A", walkingOrder: 1 }),
      aWallRow({ roomId: "4", name: "A 9", suite: "A", walkingOrder: 1, state: "out-of-service" }),
    ];
    const order = (given: typeof rooms) =>
      wallSuites(given).map(({ name, rooms: inside }) => [name, inside.map((row) => row.name)]);
    expect(order(rooms)).toEqual([
      ["A", ["A 9", "A 10", "A 2"]],
      ["B", ["B 1"]],
    ]);
    expect(order(rooms.map((row) => ({ ...row, state: "ready" as const })).reverse())).toEqual(order(rooms));
  });
});

describe("the pages of the wall", () => {
  it("are one up to 48 rooms", () => {
    const suites = wallSuites([...aSuite("A", 30), ...aSuite("B", MOST_ON_A_PAGE - 30, 31)]);
    expect(wallPages(suites)).toEqual([suites]);
  });

  it("hold every room once, in order, about equally many", () => {
    const rooms = [...aSuite("A", 70), ...aSuite("B", 31, 71)];
    const pages = wallPages(wallSuites(rooms));
    expect(pages.map((page) => page.flatMap(({ rooms: inside }) => inside).length)).toEqual([34, 34, 33]);
    expect(pages.flat().flatMap(({ rooms: inside }) => inside.map(({ name }) => name))).toEqual(
      rooms.map(({ name }) => name),
    );
    expect(pages[2]?.map(({ name }) => name)).toEqual(["A", "B"]);
  });

  it("are none without rooms", () => expect(wallPages(wallSuites([]))).toEqual([]));
});

describe("the size of the small words, on a screen 1920 wide", () => {
  it.each([
    ["24 rooms in four suites", [12, 4, 6, 2], 25],
    ["24 rooms in one suite", [24], 25],
    ["48 rooms in four suites", [24, 8, 12, 4], 22],
    ["48 rooms in one suite", [48], 22],
    ["6 rooms", [6], 30],
  ])("%s", (_, counts, least) => {
    let first = 1;
    const rooms = counts.flatMap((count, index) => {
      const suite = aSuite(`S${index}`, count, first);
      first += count;
      return suite;
    });
    const size = sizeIn(wallGrid(wallSuites(rooms), counts.length > 1));
    expect(size).toBeGreaterThanOrEqual(least);
    // At three metres the small words still have half as much again as normal sight needs; name and state are larger.
    expect(arcMinutes(size * CAPITAL * PIXEL_MM, 3)).toBeGreaterThan(1.5 * NORMAL_SIGHT_ARCMIN);
  });
});
