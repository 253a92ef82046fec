import { QueryClient } from "@tanstack/react-query";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { BoardKeeper, boardKey } from "@/app/_live/board-keeper.client";
import type { ChangeEvent } from "@/app/_live/live-store.client";
import type { Board } from "@/lib/schemas/board";
import type { RowsEvent } from "@/lib/schemas/live";
import { aBoard, aRow, FACILITY, roomId } from "./board-rows";

const AT = "2026-03-04T12:10:05.000Z";

let queries: QueryClient;
let keeper: BoardKeeper;
let say: (event: ChangeEvent) => void;
let recent: RowsEvent[];
/** What the server would answer now, and how often it was asked. */
let server: { board: Board; asked: number; fails: boolean };

beforeEach(async () => {
  vi.useFakeTimers();
  queries = new QueryClient({ defaultOptions: { queries: { retry: false, gcTime: Number.POSITIVE_INFINITY } } });
  server = { board: aBoard(), asked: 0, fails: false };
  recent = [];
  const hearing = {
    hear: (hearer: (event: ChangeEvent) => void) => {
      say = hearer;
      return () => undefined;
    },
    recentRows: () => recent,
  };
  keeper = new BoardKeeper(hearing, queries, FACILITY);
  keeper.start();
  await queries.fetchQuery({ queryKey: boardKey(FACILITY), queryFn: ask });
  server.asked = 0;
});
afterEach(() => {
  queries.clear();
  vi.useRealTimers();
});

async function ask(): Promise<Board> {
  server.asked += 1;
  if (server.fails) throw new Error("not reached");
  return keeper.bringUpToDate(server.board);
}

function rows(change: Partial<RowsEvent>): void {
  const data: RowsEvent = {
    facility: FACILITY,
    sequence: 11,
    after: 10,
    at: AT,
    holders: [],
    complete: false,
    rooms: [],
    ...change,
  };
  recent.push(data);
  say({ name: "rows", data });
}

const held = () => queries.getQueryData<Board>(boardKey(FACILITY));
const stateOf = (n: number) => held()?.rooms.find((row) => row.roomId === roomId(n))?.state;
const pass = (ms: number) => vi.advanceTimersByTimeAsync(ms);

describe("the board kept in step", () => {
  it("takes rows as they come and asks the server nothing", async () => {
    rows({ rooms: [aRow(1, { state: "do-not-use" })] });
    rows({ sequence: 12, after: 11, rooms: [aRow(2, { state: "ready" })] });
    await pass(10_000);
    expect([stateOf(1), stateOf(2), stateOf(3)]).toEqual(["do-not-use", "ready", "to-check"]);
    expect(server.asked).toBe(0);
    expect(keeper.missingFor()).toBe(0);
  });

  it("reads the whole board once after a gap, within a second", async () => {
    server.board = aBoard({ sequence: 13, at: AT, rooms: [aRow(1, { state: "do-not-use" }), aRow(2), aRow(3)] });
    rows({ sequence: 13, after: 12, rooms: [aRow(2)] });
    expect(stateOf(1)).toBe("to-check");
    await pass(1_000);
    expect(server.asked).toBe(1);
    expect(stateOf(1)).toBe("do-not-use");
    expect(held()?.sequence).toBe(13);
    expect(keeper.missingFor()).toBe(0);
  });

  it("reads it after a break that hello reveals, and not when nothing was missed", async () => {
    say({ name: "hello", data: { facility: FACILITY, sequence: 10, at: AT } });
    await pass(1_000);
    expect(server.asked).toBe(0);
    server.board = aBoard({ sequence: 15, at: AT });
    say({ name: "hello", data: { facility: FACILITY, sequence: 15, at: AT } });
    await pass(1_000);
    expect(server.asked).toBe(1);
  });

  it("sets what the stream brought meanwhile into a board that was read too early", async () => {
    rows({ sequence: 13, after: 12 });
    server.board = aBoard({ sequence: 13, at: AT });
    rows({ sequence: 14, after: 13, at: "2026-03-04T12:10:06.000Z", rooms: [aRow(3, { state: "ready" })] });
    await pass(1_000);
    expect(held()?.sequence).toBe(14);
    expect(stateOf(3)).toBe("ready");
  });

  it("asks again, and knows what it lacks, while the server cannot answer or answers too old a board", async () => {
    server.fails = true;
    rows({ sequence: 13, after: 12 });
    await pass(6_000);
    expect(server.asked).toBeGreaterThan(1);
    expect(keeper.missingFor()).toBeGreaterThan(5_000);
    server.fails = false;
    server.board = aBoard({ sequence: 12, at: AT });
    recent = [];
    await pass(3_000);
    expect(keeper.missingFor()).toBeGreaterThan(8_000);
    server.board = aBoard({ sequence: 13, at: AT });
    await pass(3_000);
    expect(keeper.missingFor()).toBe(0);
    expect(held()?.sequence).toBe(13);
  });

  it("takes a newer board from a page, and not an older one from the browser's way back", () => {
    keeper.offer(aBoard({ sequence: 12, at: AT }));
    expect(held()?.sequence).toBe(12);
    keeper.offer(aBoard({ sequence: 11, at: AT }));
    expect(held()?.sequence).toBe(12);
  });
});
