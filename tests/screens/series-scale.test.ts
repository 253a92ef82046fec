import { describe, expect, it } from "vitest";
import { seriesFrame } from "@/app/rooms/[id]/series-scale";
import type { RoomView } from "@/lib/schemas/room";
import { quantity } from "@/lib/units/quantity";

type Part = RoomView["parts"][number];
const at = (day: number) => `2026-03-0${day}T12:00:00.000Z`;
const point = (day: number, value: number) => ({ at: at(day), reading: quantity(value, "mL/min"), failed: false });
const said = ({ value, unit }: { value: number; unit: string }) => `${value} ${unit}`;

function part(change: Partial<Part>): Part {
  return {
    series: [point(1, 60), point(3, 70), point(5, 80)],
    atLeast: null,
    atMost: quantity(150, "mL/min"),
    trend: null,
    ...change,
  } as Part;
}
const trend = (crossing: string, from: string, to: string | null): Part["trend"] => ({
  slope: quantity(5, "mL/min"),
  crossing,
  from,
  to,
});

describe("the line of a part's readings", () => {
  it("ends at the last reading where nothing is told of what comes", () => {
    const frame = seriesFrame(part({}), said);
    expect(frame?.dots.map(({ x }) => x)).toEqual([2, 50, 98]);
    expect(frame?.ahead).toBeNull();
    expect(frame?.end).toBe(at(5));
  });

  it("goes on to the day on which the limit is met, and marks the days between which it is", () => {
    const frame = seriesFrame(part({ trend: trend("2026-03-09", "2026-03-07", "2026-03-13") }), said);
    expect(frame?.end).toBe(at(9));
    expect(frame?.dots.at(-1)?.x).toBe(50);
    expect(frame?.ahead?.from).toEqual({ x: 50, y: frame?.dots.at(-1)?.y });
    expect(frame?.ahead?.to).toEqual({ x: 98, y: frame?.limits[0]?.y });
    expect(frame?.ahead?.between).toEqual({ left: 74, right: 100, y: frame?.limits[0]?.y });
  });

  it("leaves the frame where the limit is met after a month, or perhaps never", () => {
    const frame = seriesFrame(part({ trend: trend("2026-05-20", "2026-04-01", null) }), said);
    expect(frame?.end).toBe("2026-04-04T12:00:00.000Z");
    expect(frame?.ahead?.to.x).toBe(98);
    expect(frame?.ahead?.to.y).toBeGreaterThan(frame?.limits[0]?.y ?? 0);
    expect(frame?.ahead?.between.right).toBe(100);
  });

  it("falls towards its lower limit", () => {
    const falling = {
      ...trend("2026-03-09", "2026-03-08", "2026-03-10"),
      slope: quantity(-5, "mL/min"),
    } as Part["trend"];
    const frame = seriesFrame(part({ atMost: null, atLeast: quantity(20, "mL/min"), trend: falling }), said);
    expect(frame?.ahead?.to.y).toBe(frame?.limits[0]?.y);
    expect(frame?.ahead?.to.y).toBeGreaterThan(frame?.ahead?.from.y ?? 100);
  });
});
