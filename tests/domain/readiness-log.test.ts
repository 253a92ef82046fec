import { describe, expect, it } from "vitest";
import { roomMorning, type Stood } from "@/lib/domain/readiness-log";
import { reasonCounts } from "@/lib/domain/reason-counts";
import { instantOf, localDate } from "@/lib/units/time";

const at = (time: string) => instantOf(`2026-03-04T${time}:00Z`);
const stood = (from: string, to: string | null, startable: boolean, ...rules: string[]): Stood => ({
  from: at(from),
  to: to === null ? null : at(to),
  state: startable ? "ready" : "do-not-use",
  startable,
  reasons: rules.map((rule) => ({ rule, severity: "stops" as const, subjectId: "one", text: `${rule} at ${from}` })),
});

const FIRST_CASE = at("07:30");
const DAY = { from: at("03:00"), to: at("23:00") };
const morning = (log: readonly Stood[], now = at("12:00")) => roomMorning(log, FIRST_CASE, DAY, now);

describe("when a room could start", () => {
  it("is the beginning of the stretch over its first case, through changes that left it startable", () => {
    const log = [stood("03:00", "06:10", false), stood("06:10", "06:40", true), stood("06:40", null, true)];
    expect(morning(log)).toEqual({ readyAt: at("06:10"), outcome: "in-time", minutesBefore: 80 });
  });

  it("is not an earlier stretch that ended before the case", () => {
    const log = [stood("06:00", "07:00", true), stood("07:00", "07:45", false, "suction"), stood("07:45", null, true)];
    expect(morning(log)).toEqual({ readyAt: at("07:45"), outcome: "late", minutesBefore: -15 });
  });

  it("at the very minute of the case is in time; a millisecond later is late", () => {
    expect(morning([stood("03:00", "07:30", false), stood("07:30", null, true)]).outcome).toBe("in-time");
    const later = { ...stood("07:30", null, true), from: instantOf("2026-03-04T07:30:00.001Z") };
    const log = [{ ...stood("03:00", null, false), to: later.from }, later];
    expect(morning(log)).toMatchObject({ outcome: "late" });
  });

  it("is the beginning of the day for a room that could start all night", () => {
    const log = [{ ...stood("01:00", null, true), from: instantOf("2026-03-03T06:19:00Z") }];
    expect(morning(log)).toEqual({ readyAt: at("03:00"), outcome: "in-time", minutesBefore: 270 });
  });

  it("is open while the case is to come, and never when the day ends first", () => {
    const log = [stood("03:00", null, false)];
    expect(morning(log, at("07:00")).outcome).toBe("not-yet");
    expect(morning(log)).toEqual({ readyAt: null, outcome: "never", minutesBefore: null });
    expect(morning([], at("12:00")).outcome).toBe("never");
  });

  it("in the middle of the morning counts a room that is ready now", () => {
    expect(morning([stood("06:10", null, true)], at("07:00"))).toMatchObject({ outcome: "in-time", minutesBefore: 80 });
  });
});

describe("the count of reasons", () => {
  const day = { date: localDate("2026-03-04"), from: at("03:00"), to: at("23:00") };
  const log = [
    stood("03:00", "06:00", false, "not-checked"),
    stood("06:00", "06:30", false, "suction", "suction"),
    stood("06:30", "07:00", false, "suction", "held"),
    stood("07:00", null, true),
  ];

  it("counts a room once a day and rule, adds the hours, and measures only what it saw begin and end", () => {
    const counts = reasonCounts([{ roomId: "a", log }], [day], at("12:00"));
    expect(
      counts.map(({ rule, roomDays, hours, hoursToCleared }) => ({ rule, roomDays, hours, hoursToCleared })),
    ).toEqual([
      { rule: "held", roomDays: 1, hours: 0.5, hoursToCleared: 0.5 },
      { rule: "not-checked", roomDays: 1, hours: 3, hoursToCleared: null },
      { rule: "suction", roomDays: 1, hours: 1, hoursToCleared: 1 },
    ]);
  });

  it("puts the most frequent first and leaves out what has not come yet", () => {
    const rooms = [
      { roomId: "a", log },
      { roomId: "b", log: [stood("06:30", null, false, "held")] },
    ];
    const counts = reasonCounts(rooms, [day], at("06:15"));
    expect(counts.map(({ rule }) => rule)).toEqual(["not-checked", "suction"]);
    expect(reasonCounts(rooms, [day], at("12:00"))[0]).toMatchObject({ rule: "held", roomDays: 2 });
  });
});
