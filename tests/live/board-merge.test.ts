import { describe, expect, it } from "vitest";
import { mergeRows } from "@/app/_live/board-merge";
import type { RowsEvent } from "@/lib/schemas/live";
import { aBoard, aRow, FACILITY, roomId } from "./board-rows";

const LATER = "2026-03-04T12:10:05.000Z";

function anEvent(change: Partial<RowsEvent>): RowsEvent {
  return { facility: FACILITY, sequence: 11, after: 10, at: LATER, holders: [], complete: false, rooms: [], ...change };
}

describe("rows that arrive are set into the board", () => {
  it("replaces the rooms named, keeps the others and their order, and moves on to the event's sequence", () => {
    const merged = mergeRows(aBoard(), anEvent({ rooms: [aRow(2, { state: "do-not-use" })] }));
    if (merged.state !== "applied") throw new Error(merged.state);
    expect(merged.board.rooms.map(({ roomId: id, state }) => [id, state])).toEqual([
      [roomId(1), "to-check"],
      [roomId(2), "do-not-use"],
      [roomId(3), "to-check"],
    ]);
    expect(merged.board.sequence).toBe(11);
    expect(merged.board.at).toBe(LATER);
  });

  it("takes a command that changed no room as news of the sequence alone", () => {
    const merged = mergeRows(aBoard(), anEvent({ rooms: [] }));
    expect(merged).toMatchObject({ state: "applied", board: { sequence: 11 } });
  });

  it.each([
    { after: 10, found: "applied" },
    { after: 9, found: "applied" },
    { after: 11, found: "gap" },
  ])("with a board at 10, an event that follows $after is $found", ({ after, found }) => {
    expect(mergeRows(aBoard({ sequence: 10 }), anEvent({ after, sequence: 12 })).state).toBe(found);
  });

  it("does not go back to an older row", () => {
    expect(mergeRows(aBoard({ sequence: 12 }), anEvent({ sequence: 11, rooms: [aRow(2)] }))).toEqual({
      state: "older",
    });
  });

  it("orders changes that the clock made, which have no sequence of their own, by the server's time", () => {
    const board = aBoard({ sequence: 11, at: LATER });
    expect(mergeRows(board, anEvent({ at: "2026-03-04T12:10:04.000Z", rooms: [aRow(1)] })).state).toBe("older");
    expect(mergeRows(board, anEvent({ at: "2026-03-04T12:10:06.000Z", rooms: [aRow(1)] })).state).toBe("applied");
  });

  it("asks for the whole board when a room is new to it", () => {
    expect(mergeRows(aBoard(), anEvent({ rooms: [aRow(4)] })).state).toBe("gap");
  });

  it("takes a whole board as it is, whatever was missed: new rooms in, removed rooms out", () => {
    const merged = mergeRows(aBoard(), anEvent({ after: 40, sequence: 41, complete: true, rooms: [aRow(1), aRow(4)] }));
    expect(merged).toMatchObject({
      state: "applied",
      board: { sequence: 41, rooms: [{ roomId: roomId(1) }, { roomId: roomId(4) }] },
    });
  });
});
