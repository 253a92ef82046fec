import type { BoardRow } from "@/lib/schemas/board";

/** A room of the board that is ready and confirmed, on which a test changes one thing. Chicago, 1 December 2026: 06:00 there is 12:00Z. */
export function aRow(change: Partial<BoardRow> = {}): BoardRow {
  return {
    roomId: "00000000-0000-4000-8000-000000000001",
    name: "OR 1",
    suite: "Main",
    walkingOrder: 1,
    workstation: { id: "00000000-0000-4000-8000-000000000002", tag: "AW-01", model: "Marrowby 40" },
    state: "ready",
    occupancy: { state: "idle" },
    marks: {
      equipment: { name: "Rosa Osei", at: local("05:41") },
      provider: { name: "Karel Brandt", at: local("06:04") },
    },
    headline: null,
    headlineRule: null,
    moreReasons: 0,
    limits: [],
    limitsAllowed: true,
    readyForList: true,
    owedCount: 0,
    whenInUse: null,
    firstCase: local("07:15"),
    listEnd: local("15:30"),
    needs: [],
    decideBy: null,
    goodUntil: null,
    reserve: null,
    work: [],
    piped: ["oxygen", "air"],
    wasteGas: "active",
    ...change,
  };
}

export const ZONE = "America/Chicago";

/** That time of day in Chicago on 1 December 2026, when it stands six hours behind UTC. */
export function local(time: string): string {
  const [hour = 0, minute = 0] = time.split(":").map(Number);
  return new Date(Date.UTC(2026, 11, 1, hour + 6, minute)).toISOString();
}
