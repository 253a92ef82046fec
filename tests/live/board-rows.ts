import type { Board, BoardRow } from "@/lib/schemas/board";
import { board as boardSchema } from "@/lib/schemas/board";

const id = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, "0")}`;

export const FACILITY = id(900);
export const roomId = (n: number) => id(n);

/** A room of a board, as the API sends it. */
export function aRow(n: number, change: Partial<BoardRow> = {}): BoardRow {
  return {
    roomId: roomId(n),
    name: `OR ${n}`,
    suite: "Core",
    walkingOrder: n,
    workstation: { id: id(100 + n), tag: `AW-${n}`, model: "Model A" },
    state: "to-check",
    occupancy: { state: "idle" },
    marks: { equipment: null, provider: null },
    headline: "not checked today",
    headlineRule: "not-checked",
    moreReasons: 0,
    limits: [],
    limitsAllowed: true,
    readyForList: false,
    owedCount: 21,
    whenInUse: null,
    firstCase: "2026-03-04T13:30:00.000Z",
    listEnd: "2026-03-04T21:00:00.000Z",
    needs: ["volatile"],
    decideBy: null,
    goodUntil: null,
    reserve: null,
    work: [],
    piped: ["oxygen", "air"],
    wasteGas: "active",
    ...change,
  };
}

/** A board; parsed, so that a test cannot go on with a shape the API would not send. */
export function aBoard(change: Partial<Board> = {}): Board {
  return boardSchema.parse({
    facility: { id: FACILITY, name: "Elm Hospital", timeZone: "America/Chicago", scheme: "US", pressureUnit: "psi" },
    sequence: 10,
    at: "2026-03-04T12:10:00.000Z",
    demo: false,
    rooms: [aRow(1), aRow(2), aRow(3)],
    ...change,
  });
}
