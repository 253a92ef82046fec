import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { completionCsv } from "@/lib/exchange/completion-csv";
import type { CompletionReport } from "@/lib/schemas/report";

type Cell = CompletionReport["rooms"][number]["cells"][number];

const cell = (fields: Partial<Cell>): Cell => ({
  date: "2026-03-09",
  state: "done",
  equipmentAt: null,
  equipmentBy: null,
  providerAt: null,
  providerBy: null,
  firstCase: null,
  failures: [],
  swaps: [],
  ...fields,
});

const report = (cells: Cell[], done: number, due: number): CompletionReport => ({
  from: "2026-03-09",
  to: "2026-03-09",
  rooms: [{ roomId: "0e6f4f6e-7d1c-4b1e-9f0e-3f2f1d0c9b8a", name: "OR 1", suite: "Main suite", cells, done, due }],
  done,
  due,
  percent: due === 0 ? null : Math.round((done / due) * 1000) / 10,
});

const rowsOf = (csv: string) => parse(csv, { columns: true }) as unknown as Record<string, string>[];

describe("the completion report as a file", () => {
  it("says who checked what and when, in the facility's own time", () => {
    const done = cell({
      equipmentAt: "2026-03-09T10:41:00.000Z",
      equipmentBy: "Ines Marsh",
      providerAt: "2026-03-09T11:52:30.000Z",
      providerBy: "Dele Oyelaran",
      firstCase: "2026-03-09T12:30:00.000Z",
      failures: ["Cylinder gauge", "Suction"],
      swaps: ["OX-40118 on yoke 1"],
    });
    expect(rowsOf(completionCsv(report([done], 1, 1), "America/Chicago"))[0]).toEqual({
      date: "2026-03-09",
      suite: "Main suite",
      room: "OR 1",
      check: "done",
      "equipment checked at": "2026-03-09 05:41",
      "equipment checked by": "Ines Marsh",
      "provider's check at": "2026-03-09 06:52",
      "provider's check by": "Dele Oyelaran",
      "first case": "2026-03-09 07:30",
      failures: "Cylinder gauge; Suction",
      swaps: "OX-40118 on yoke 1",
    });
  });

  it("sums each room and all of them, and nothing due is n/a and not 0 %", () => {
    const some = rowsOf(
      completionCsv(report([cell({}), cell({ state: "missed" }), cell({ state: "late" })], 2, 3), "UTC"),
    );
    expect(some.filter(({ date }) => date === "total").map(({ room, check }) => [room, check])).toEqual([
      ["OR 1", "66.7 % (2 of 3)"],
      ["all rooms", "66.7 % (2 of 3)"],
    ]);
    const none = rowsOf(completionCsv(report([cell({ state: "closed" }), cell({ state: "not-due" })], 0, 0), "UTC"));
    expect(none.map(({ check }) => check)).toEqual(["closed", "not due", "n/a (0 due)", "n/a (0 due)"]);
  });

  it.each(["=HYPERLINK(1)", "+1", "-1", "@sum", "\tx"])(
    "keeps a cell that begins like a formula as text: %j",
    (name) => {
      const [row] = rowsOf(completionCsv(report([cell({ equipmentBy: name })], 1, 1), "UTC"));
      expect(row?.["equipment checked by"]).toBe(`'${name}`);
    },
  );
});
