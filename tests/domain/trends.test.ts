import { describe, expect, it } from "vitest";
import type { Answer } from "@/lib/domain/answer";
import type { SubjectKind } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import { trendChange, trendOf } from "@/lib/domain/trends/decide";
import type { MeasuredAnswer, TrendQuestion } from "@/lib/domain/trends/model";
import type { TrendRow } from "@/lib/storage/evidence-rows";
import { trendsOf } from "@/lib/storage/trends";
import { quantity, type Unit } from "@/lib/units/quantity";
import type { LocalDate } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

const LEAK = { kind: "workstation", id: "workstation-1" } as const;

/** One reading a morning, the last one on 20 March 2026, 06:00 in Chicago. */
function mornings(values: readonly number[], unit: Unit, failed: readonly number[] = []): MeasuredAnswer[] {
  return values.map((value, index) => ({
    at: new Date(Date.UTC(2026, 2, 20 - (values.length - 1 - index), 11)).toISOString(),
    answer: { kind: "number", reading: quantity(value, unit) } satisfies Answer,
    failed: failed.includes(index),
  }));
}

const leak = (readings: readonly MeasuredAnswer[], atMost = quantity(150, "mL/min")): TrendQuestion => ({
  item: "breathing-leak",
  subject: LEAK,
  readings,
  limits: { atLeast: null, atMost },
  timeZone: "America/Chicago",
});
const RISING = [60, 65, 70, 75, 80, 85, 90, 95, 100];

describe("where readings are heading", () => {
  it("a leak that rises by 5 mL/min a day, 50 below its limit, meets it in ten days", () => {
    expect(trendOf(leak(mornings(RISING, "mL/min")))).toEqual({
      item: "breathing-leak",
      subject: LEAK,
      slope: { value: 5, unit: "mL/min" },
      crossing: "2026-03-30",
      between: { from: "2026-03-30", to: "2026-03-30" },
    });
  });

  it("readings that scatter about their line give an interval with the crossing inside", () => {
    const scattered = [63, 63, 71, 72, 82, 85, 89, 98, 98];
    const trend = trendOf(leak(mornings(scattered, "mL/min")));
    const { crossing, between } = trend ?? {};
    expect([between?.from, crossing, between?.to]).toEqual([between?.from, crossing, between?.to].sort());
    expect(new Set([between?.from, crossing, between?.to]).size).toBe(3);
  });

  it("a reserve that falls is held against the other side of its limit, and in the unit of the last reading", () => {
    const psi = mornings([2050, 2000, 1950, 1900, 1850, 1800, 1750, 1700], "psi");
    const bar = mornings([141.34, 137.9, 134.45, 131, 127.55, 124.11, 120.66, 117.21], "bar");
    const falling = (readings: readonly MeasuredAnswer[]): TrendQuestion => ({
      item: "cylinder-gauge",
      subject: { kind: "cylinder", id: "cylinder-1" },
      readings,
      limits: { atLeast: quantity(1000, "psi"), atMost: null },
      timeZone: "America/Chicago",
    });
    expect(trendOf(falling(psi))).toMatchObject({ slope: { value: -50, unit: "psi" }, crossing: "2026-04-03" });
    expect(trendOf(falling([...bar.slice(0, 2), ...psi.slice(2)]))).toMatchObject({
      slope: { unit: "psi" },
      crossing: "2026-04-03",
    });
  });

  it.each([
    { why: "too few readings", values: RISING.slice(0, 7) },
    { why: "readings that stay", values: [60, 60, 60, 60, 60, 60, 60] },
    { why: "readings that go away from the limit", values: [...RISING].reverse() },
    { why: "readings that go up and down", values: [60, 90, 62, 88, 61, 91, 60, 89] },
    { why: "a limit that is years away", values: RISING.map((value) => 60 + (value - 60) / 100) },
  ])("nothing is told from $why", ({ values }) => {
    expect(trendOf(leak(mornings(values, "mL/min")))).toBeNull();
  });

  it("what failed was dealt with: the readings before it are not counted", () => {
    const mended = [...RISING, 160, 62, 61, 62];
    expect(trendOf(leak(mornings(mended, "mL/min", [9])))).toBeNull();
    const again = [100, 160, ...RISING];
    expect(trendOf(leak(mornings(again, "mL/min", [1])))?.crossing).toBe("2026-03-30");
  });

  it("a line that has met the limit while the last reading held it meets it today, never in the past", () => {
    const near = [90, 100, 110, 120, 130, 140, 151, 149];
    expect(trendOf(leak(mornings(near, "mL/min")))?.crossing).toBe("2026-03-20");
  });

  it("a row is written when the answer changes, and once when a trend has ended", () => {
    const question = leak(mornings(RISING, "mL/min"));
    const trend = trendOf(question);
    expect(trendChange(null, null, question)).toBeNull();
    expect(trendChange(null, trend, question)).toEqual(trend);
    expect(trendChange(trend, trend, question)).toBeNull();
    expect(trendChange(trend, null, question)).toEqual({
      item: "breathing-leak",
      subject: LEAK,
      slope: null,
      crossing: null,
    });
  });
});

describe("what the judge says of a trend", () => {
  const LEAVES = "2026-03-10" as LocalDate;
  const said = (to: LocalDate | null): string | undefined => {
    const ready = readyRoom();
    const subject = { kind: "workstation", id: ready.workstation?.id ?? "" } as const;
    const slope = quantity(5, "mL/min");
    const between = { from: "2026-03-08" as LocalDate, to };
    const judged = judge({ ...ready, trends: [{ item: "breathing-leak", subject, slope, crossing: LEAVES, between }] });
    return judged.reasons.find(({ rule }) => rule === "trend-crossing")?.text;
  };

  it("the date is said with its interval, and that it may never come", () => {
    expect(said("2026-03-14" as LocalDate)).toContain("about 10 Mar 2026 (between 8 Mar 2026 and 14 Mar 2026)");
    expect(said(null)).toContain("about 10 Mar 2026 (8 Mar 2026 at the earliest)");
  });
});

describe("the trends that a room's evidence holds", () => {
  const rowOf = (kind: SubjectKind, id: string, keeper: string): TrendRow => ({
    keeper_id: keeper,
    item: "cylinder-gauge",
    subject_kind: kind,
    subject_id: id,
    slope: quantity(-50, "psi"),
    crossing: "2026-03-10",
    crossing_from: "2026-03-08",
    crossing_to: null,
  });

  it("a part that was taken off takes its own with it, and another room's are not these", () => {
    const { workstation, room } = readyRoom();
    const keepers = [workstation?.id, room?.id];
    const fitted = workstation?.fitted.cylinders[0]?.id ?? "";
    const rows = [
      rowOf("cylinder", fitted, workstation?.id ?? ""),
      rowOf("cylinder", "cylinder-gone", workstation?.id ?? ""),
      rowOf("oxygen-sensor", "sensor-gone", workstation?.id ?? ""),
      rowOf("pipeline", "oxygen", room?.id ?? ""),
      rowOf("pipeline", "air", "room-elsewhere"),
    ];
    expect(trendsOf(rows, keepers, workstation).map(({ subject }) => subject.id)).toEqual([fitted, "oxygen"]);
    expect(trendsOf(rows, keepers, null).map(({ subject }) => subject.id)).toEqual(["oxygen"]);
  });
});
