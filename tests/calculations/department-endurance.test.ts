import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { departmentEndurance, type RoomReserve } from "@/lib/calculations/department-endurance";
import { litre, litrePerMinute } from "@/lib/units/measure";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const room = (name: string, contents: number, flow: number, residual = 0): RoomReserve => ({
  room: name,
  contents: litre(contents),
  residual: litre(residual),
  flow: litrePerMinute(flow),
});
const ask = (rooms: readonly RoomReserve[], store = 0) => departmentEndurance(rooms, litre(store));

describe("a department on its cylinders", () => {
  const rooms = [room("2", 600, 5), room("1", 100, 5), room("3", 300, 10, 100)];

  it("names the shortest first and by room where two are alike", () => {
    expect(answerOf(ask(rooms)).rooms).toEqual([
      { room: "1", minutes: 20 },
      { room: "3", minutes: 20 },
      { room: "2", minutes: 120 },
    ]);
    expect(answerOf(ask(rooms)).firstRoomOut).toBe(20);
  });

  it("without a store lasts as long as its shortest room, whatever lies in the others", () => {
    const { allRooms, fromStore, leftInRooms } = answerOf(ask(rooms));
    expect([allRooms, fromStore, leftInRooms]).toEqual([20, 0, 500]);
  });

  it("with a store lasts until what the short rooms still need has used it up", () => {
    // 300 L for rooms 1 and 3 at 15 L/min: 20 min more.
    const { allRooms, fromStore, leftInRooms } = answerOf(ask(rooms, 300));
    expect([allRooms, fromStore, leftInRooms]).toEqual([40, 300, 400]);
    // With 3,000 L, all three live on it in the end: (600 + 100 + 200 + 3000) / 20.
    expect(answerOf(ask(rooms, 3_000)).allRooms).toBe(195);
  });

  it("does not count a room that takes nothing, and has no answer where none does", () => {
    const resting = [...rooms, room("4", 600, 0)];
    expect(answerOf(ask(resting)).rooms.at(-1)).toEqual({ room: "4", minutes: null });
    expect(answerOf(ask(resting)).leftInRooms).toBe(1_100);
    expect(refusalOf(ask([room("4", 600, 0)]))).toBe("no-consumption");
    expect(refusalOf(ask([]))).toBe("no-consumption");
  });

  it("is 0 where a room has no more than its residual and nothing is in the store", () => {
    expect(answerOf(ask([room("1", 90, 5, 100), room("2", 600, 5)])).allRooms).toBe(0);
  });

  it("refuses flows and contents below zero, and names the room", () => {
    expect(ask([room("Suite 7", 1, -1)])).toMatchObject({ ok: false, message: expect.stringContaining("Suite 7") });
    expect(refusalOf(ask([room("1", -1, 1)]))).toBe("contents-unusable");
    expect(refusalOf(ask(rooms, -1))).toBe("contents-unusable");
  });

  it("uses up the store exactly, and never lasts longer than all gas over all flow", () => {
    const some = fc.array(
      fc.record({ own: fc.integer({ min: 0, max: 2_000 }), flow: fc.integer({ min: 1, max: 15 }) }),
      { minLength: 1, maxLength: 24 },
    );
    fc.assert(
      fc.property(some, fc.integer({ min: 0, max: 5_000 }), (given, store) => {
        const { allRooms, fromStore, firstRoomOut } = answerOf(
          ask(
            given.map(({ own, flow }, n) => room(`${n}`, own, flow)),
            store,
          ),
        );
        const own = given.reduce((sum, one) => sum + one.own, 0);
        const flow = given.reduce((sum, one) => sum + one.flow, 0);
        expect(fromStore).toBeCloseTo(store, 6);
        expect(allRooms).toBeLessThanOrEqual((own + store) / flow + 1e-9);
        expect(allRooms).toBeGreaterThanOrEqual(firstRoomOut - 1e-9);
      }),
    );
  });
});
