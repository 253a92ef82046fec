import { describe, expect, it } from "vitest";
import { dayCounts } from "@/app/reports/day-counts";
import type { CompletionReport } from "@/lib/schemas/report";

type State = CompletionReport["rooms"][number]["cells"][number]["state"];
const cell = (date: string, state: State) => ({
  date,
  state,
  equipmentAt: null,
  equipmentBy: null,
  providerAt: null,
  providerBy: null,
  firstCase: null,
  failures: [],
  swaps: [],
});
const room = (name: string, states: Record<string, State>) => ({
  roomId: name,
  name,
  suite: "A",
  cells: Object.entries(states).map(([date, state]) => cell(date, state)),
  done: 0,
  due: 0,
});

describe("checks by day", () => {
  it("counts what was due, and leaves closed and unlisted days out", () => {
    const report = {
      from: "2026-11-23",
      to: "2026-11-24",
      done: 0,
      due: 0,
      percent: null,
      rooms: [
        room("A1", { "2026-11-23": "done", "2026-11-24": "closed" }),
        room("A2", { "2026-11-23": "late", "2026-11-24": "not-due" }),
        room("A3", { "2026-11-23": "missed", "2026-11-24": "closed" }),
      ],
    };
    expect(dayCounts(report)).toEqual([
      { date: "2026-11-23", due: 3, done: 1, late: 1 },
      { date: "2026-11-24", due: 0, done: 0, late: 0 },
    ]);
  });
});
