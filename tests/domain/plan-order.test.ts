import { describe, expect, it } from "vitest";
import { dice } from "@/lib/domain/dice";
import type { DutyNow } from "@/lib/domain/duty/model";
import { type OrderInput, orderByPlan } from "@/lib/domain/plan-order";
import { orderTasks } from "@/lib/domain/task-order";
import { HOUR, instant, later, MINUTE, timestampOf } from "@/lib/units/time";

const NOW = instant(Date.parse("2026-03-04T11:30:00Z"));
const AT_0730 = timestampOf(later(NOW, 2 * HOUR));

function task(room: number, change: Partial<OrderInput> = {}): OrderInput {
  return {
    key: `check:${room}`,
    severity: "owed",
    minutes: 12,
    mayDo: ["technician"],
    roomId: `r${room}`,
    roomName: `OR ${room}`,
    suite: room < 20 ? "Main" : "Heart",
    walkingOrder: room < 20 ? 1_000 + room : 2_000 + room,
    firstCase: AT_0730,
    setUpMinutes: 0,
    claimed: false,
    claim: null,
    lacksParts: false,
    ...change,
  };
}
const claimed = (personId: string): Partial<OrderInput> => ({
  claimed: true,
  claim: { personId, name: personId.toUpperCase(), at: later(NOW, -5 * MINUTE) },
});
const technician = (id: string, hours = 8) => ({
  personId: id,
  name: id.toUpperCase(),
  roles: ["technician"] as const,
  until: later(NOW, hours * HOUR),
});
const duty = (...people: DutyNow["people"]): DutyNow => ({ onRoster: true, people });
const keys = (tasks: readonly OrderInput[], who: DutyNow, of?: string) =>
  orderByPlan(tasks, who, NOW).flatMap(({ task: { key }, plannedFor }) =>
    of === undefined || plannedFor?.personId === of ? [key] : [],
  );

describe("the order of the work by the plan", () => {
  it("gives each person on duty a route, with the reason and what waiting costs", () => {
    const rooms = [1, 2, 3, 4, 21, 22, 23, 24].map((room) => task(room));
    const placed = orderByPlan(rooms, duty(technician("ana"), technician("bo")), NOW);
    expect(placed).toHaveLength(8);
    const routes = ["ana", "bo"].map((id) => placed.filter(({ plannedFor }) => plannedFor?.personId === id));
    expect(routes.map((route) => new Set(route.map(({ task: { suite } }) => suite)).size)).toEqual([1, 1]);
    for (const { placed: why, ifItWaits, plannedFor } of placed) {
      expect(why).toMatch(/OR \d+/);
      expect(ifItWaits).toMatch(/^It may wait \d+ min; after that a first case is late\.$/);
      expect(plannedFor?.name).toMatch(/^(ANA|BO)$/);
    }
  });

  it("stands by the minute at which each would be begun", () => {
    const rooms = [1, 2, 3, 4, 5, 6].map((room) => task(room));
    const starts = orderByPlan(rooms, duty(technician("ana"), technician("bo")), NOW).map(
      ({ plannedFor }) => plannedFor?.at ?? "",
    );
    expect(starts).toEqual([...starts].sort());
  });

  it("leaves begun work in front and with whoever has it, on the roster or not", () => {
    const rooms = [task(1), task(2, claimed("bo")), task(3), task(4, claimed("guest"))];
    const placed = orderByPlan(rooms, duty(technician("ana"), technician("bo")), NOW);
    expect(
      placed
        .slice(0, 2)
        .map(({ task: { key }, plannedFor }) => [key, plannedFor?.personId])
        .sort(),
    ).toEqual([
      ["check:2", "bo"],
      ["check:4", "guest"],
    ]);
    expect(placed.filter(({ plannedFor }) => plannedFor?.personId === "guest")).toHaveLength(1);
  });

  it("puts the first case that waiting would make late in front", () => {
    const soon = timestampOf(later(NOW, 20 * MINUTE));
    expect(keys([task(1), task(2), task(9, { firstCase: soon })], duty(technician("ana")))[0]).toBe("check:9");
  });

  it("says why what nobody on duty may do, or has time left for, is in nobody's part", () => {
    const rooms = [task(1), task(2, { mayDo: ["biomedical-engineer"] })];
    const placed = orderByPlan(rooms, duty(technician("ana")), NOW);
    expect(placed.at(-1)).toMatchObject({
      task: { key: "check:2" },
      plannedFor: null,
      ifItWaits: null,
      placed: "Nobody on duty may do it (biomedical engineer).",
    });
    const short = orderByPlan([task(1), task(2)], duty({ ...technician("ana"), until: later(NOW, 15 * MINUTE) }), NOW);
    expect(short.map(({ plannedFor }) => plannedFor?.personId ?? null)).toEqual(["ana", null]);
    expect(short[1]?.placed).toBe("Who may do it goes off duty before it could be done.");
  });

  it("a swap whose gas no store has stands last and says so", () => {
    const placed = orderByPlan([task(1, { lacksParts: true }), task(2)], duty(technician("ana")), NOW);
    expect(placed.map(({ task: { key } }) => key)).toEqual(["check:2", "check:1"]);
    expect(placed[1]?.placed).toBe("Last, because what it needs is not in stock.");
  });

  it("is the order by consequence where no roster says who is there, or it leaves nobody", () => {
    const rooms = [task(3), task(1), task(2, { severity: "due" })];
    const plain = orderTasks(rooms, NOW);
    expect(orderByPlan(rooms, { onRoster: false, people: [] }, NOW)).toEqual(plain);
    expect(orderByPlan(rooms, duty(), NOW)).toEqual(plain);
  });

  it("is the same whatever order the tasks and the people come in, and holds every task once", () => {
    const throws = dice(20_260_304);
    const rooms = Array.from({ length: 30 }, (_, room) => task(room + 1, room % 7 === 3 ? claimed("bo") : {}));
    const people = [technician("ana"), technician("bo"), technician("cy")];
    const first = keys(rooms, duty(...people));
    expect([...first].sort()).toEqual(rooms.map(({ key }) => key).sort());
    for (let time = 0; time < 5; time += 1)
      expect(keys(throws.shuffled(rooms), duty(...throws.shuffled(people)))).toEqual(first);
  });
});
