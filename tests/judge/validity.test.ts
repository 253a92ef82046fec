import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { withRoom } from "@/lib/domain/rules/examples";
import { checkedAt, checkedBefore, seenAt } from "./moved";

/** When a check was signed, and until when it counts, both written down by the clock on the wall and worked out by hand. */
const CHECKS: readonly (readonly [place: string, what: string, signed: string, until: string])[] = [
  [
    "America/New_York",
    "the day before clocks go forward, 05:45 EST to 05:00 EDT",
    "2026-03-07T10:45:00Z",
    "2026-03-08T09:00:00Z",
  ],
  [
    "America/New_York",
    "the day on which clocks went forward, 05:45 EDT",
    "2026-03-08T09:45:00Z",
    "2026-03-09T09:00:00Z",
  ],
  [
    "America/New_York",
    "01:59 EST in the short night belongs to the evening before",
    "2026-03-08T06:59:00Z",
    "2026-03-08T09:00:00Z",
  ],
  [
    "America/New_York",
    "03:00 EDT, the moment after it, is the new day",
    "2026-03-08T07:00:00Z",
    "2026-03-09T09:00:00Z",
  ],
  [
    "America/New_York",
    "the day before clocks go back, 05:45 EDT to 05:00 EST",
    "2026-10-31T09:45:00Z",
    "2026-11-01T10:00:00Z",
  ],
  ["America/New_York", "the first 01:30 of the long night", "2026-11-01T05:30:00Z", "2026-11-01T10:00:00Z"],
  ["America/New_York", "the second 01:30 of the long night", "2026-11-01T06:30:00Z", "2026-11-01T10:00:00Z"],
  ["America/New_York", "02:59:59 EST of the long night", "2026-11-01T07:59:59Z", "2026-11-01T10:00:00Z"],
  ["America/New_York", "03:00 EST of the long night", "2026-11-01T08:00:00Z", "2026-11-02T10:00:00Z"],
  [
    "Europe/London",
    "the day before clocks go forward, 05:45 GMT to 05:00 BST",
    "2026-03-28T05:45:00Z",
    "2026-03-29T04:00:00Z",
  ],
  ["Europe/London", "the day on which clocks went forward, 05:45 BST", "2026-03-29T04:45:00Z", "2026-03-30T04:00:00Z"],
  ["Europe/London", "00:59 GMT in the short night", "2026-03-29T00:59:00Z", "2026-03-29T04:00:00Z"],
  ["Europe/London", "03:00 BST in the short night", "2026-03-29T02:00:00Z", "2026-03-30T04:00:00Z"],
  [
    "Europe/London",
    "the day before clocks go back, 05:45 BST to 05:00 GMT",
    "2026-10-24T04:45:00Z",
    "2026-10-25T05:00:00Z",
  ],
  ["Europe/London", "02:59 GMT of the long night", "2026-10-25T02:59:00Z", "2026-10-25T05:00:00Z"],
  ["Europe/London", "03:00 GMT of the long night", "2026-10-25T03:00:00Z", "2026-10-26T05:00:00Z"],
  ["America/Chicago", "an ordinary day, 05:45 CST", "2026-03-03T11:45:00Z", "2026-03-04T11:00:00Z"],
  [
    "America/Chicago",
    "23:50 CST, checked in the evening, is the same day",
    "2026-03-04T05:50:00Z",
    "2026-03-04T11:00:00Z",
  ],
  ["Asia/Kolkata", "where clocks never change", "2026-06-30T00:15:00Z", "2026-06-30T23:30:00Z"],
];

const MINUTE = 60_000;

describe("a check counts until 05:00 of the next check day, by the clock on the wall", () => {
  it.each(CHECKS)("%s: %s", (place, _what, signed, until) => {
    const room = checkedAt(place, signed);
    const judgement = judge(room);
    expect(judgement).toMatchObject({ state: "ready", goodUntil: new Date(until).toISOString() });
    expect(judge(seenAt(room, Date.parse(until) - 1)).state).toBe("ready");
    expect(judge(seenAt(room, until))).toMatchObject({ state: "to-check", marks: { equipment: null, provider: null } });
  });
});

it("what was looked at before the day turned and signed after it counts no longer than the look", () => {
  const room = checkedBefore("America/Chicago", "2026-03-04T09:02:00Z");
  expect(judge(room)).toMatchObject({ state: "ready", goodUntil: "2026-03-04T11:00:00.000Z" });
});

describe("the site's own times", () => {
  const own = (room: Evidence, values: Record<string, string>): Evidence => ({
    ...room,
    settings: { "check-validity": { on: true, values, version: 1, citation: "site" } },
  });

  it("a day that turns at midnight, with checks good until 07:30", () => {
    const room = own(checkedAt("America/New_York", "2026-11-01T04:30:00Z"), { turnsAt: "00:00", goodUntil: "07:30" });
    expect(judge(room).goodUntil).toBe("2026-11-02T12:30:00.000Z");
    const before = own(checkedAt("America/New_York", "2026-11-01T03:59:00Z"), { turnsAt: "00:00", goodUntil: "07:30" });
    expect(judge(before).goodUntil).toBe("2026-11-01T12:30:00.000Z");
  });
});

describe("a case that runs", () => {
  const [place, , signed, until] = CHECKS[4] ?? CHECKS[0] ?? ["", "", "", ""];
  const room = checkedAt(place, signed);
  const running = (since: number, confirmed: boolean): Evidence =>
    withRoom(seenAt(room, Date.parse(until) + 90 * MINUTE), {
      occupancy: { state: "in-use", since: new Date(since).toISOString(), confirmed },
    });

  it("keeps what counted when it began", () => {
    expect(judge(running(Date.parse(until) - 1, true)).state).toBe("ready");
  });

  it("keeps nothing that had ended before it began", () => {
    expect(judge(running(Date.parse(until), true)).state).toBe("to-check");
  });

  it("keeps nothing when it was only guessed from the clock", () => {
    expect(judge(running(Date.parse(until) - 1, false)).state).toBe("to-check");
  });
});

/** The leak test done again in a check of its own. */
const again = (room: Evidence, at: string): Evidence["observations"] =>
  room.observations
    .filter(({ item }) => item === "low-pressure-leak")
    .map((one) => ({ ...one, id: `again-${one.id}`, check: "recheck", observedAt: at, recordedAt: at }));

const recheck = (at: string): Evidence["checks"][number] => ({
  id: "recheck",
  procedure: null,
  kind: "recheck",
  startedAt: at,
  startedBy: "somebody",
  signed: [{ by: "somebody", role: "technician", meaning: "performed", at }],
});

it("a recheck never makes a check count longer", () => {
  const room = checkedAt("America/Chicago", "2026-03-03T11:45:00Z");
  const later = "2026-03-03T20:00:00.000Z";
  const rechecked: Evidence = {
    ...seenAt(room, "2026-03-03T20:10:00Z"),
    observations: [...room.observations, ...again(room, later)],
    checks: [...room.checks, recheck(later)],
  };
  expect(again(room, later)).toHaveLength(1);
  expect(judge(rechecked)).toMatchObject({ state: "ready", goodUntil: "2026-03-04T11:00:00.000Z" });
  const nextMorning = judge(seenAt(rechecked, "2026-03-04T12:00:00Z"));
  expect(nextMorning.owed.map(({ item }) => item)).toContain("low-pressure-leak");
});

it("a recheck in the new check day does not stand in for that part of the new check", () => {
  const room = checkedAt("America/Chicago", "2026-03-03T11:45:00Z");
  const night = "2026-03-04T10:00:00.000Z";
  const rechecked = (now: string): Evidence => ({
    ...seenAt(room, now),
    observations: [...room.observations, ...again(room, night)],
    checks: [...room.checks, recheck(night)],
  });
  expect(judge(rechecked("2026-03-04T10:10:00Z")).state).toBe("ready");
  const owed = judge(rechecked("2026-03-04T11:00:00Z")).owed.map(({ item }) => item);
  expect(owed).toContain("low-pressure-leak");
});
