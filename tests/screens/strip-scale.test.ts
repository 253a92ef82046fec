import { describe, expect, it } from "vitest";
import { inSight, place, stripScale, workBlocks, workEnd } from "@/app/(board)/strip-scale";
import { instantOf, MINUTE, timeIn } from "@/lib/units/time";
import { local, ZONE } from "./board-rows";

const at = (time: string) => instantOf(local(time));
const shown = (now: string, firstCases: readonly string[] = []) => {
  const scale = stripScale(at(now), ZONE, firstCases.map(at));
  return {
    scale,
    from: timeIn(ZONE, scale.from),
    to: timeIn(ZONE, scale.to),
    ticks: scale.ticks.map((tick) => timeIn(ZONE, tick)),
  };
};

describe("the stretch of the morning that strips show", () => {
  it("begins half an hour or more behind now, on a half hour", () => {
    expect(shown("06:14")).toMatchObject({ from: "05:30", to: "08:30" });
    expect(shown("06:29").from).toBe("05:30");
    expect(shown("06:30").from).toBe("06:00");
  });

  it("waits at five while it is night", () => {
    const { scale, from } = shown("03:20");
    expect(from).toBe("05:00");
    expect(inSight(scale, scale.now)).toBe(false);
  });

  it("reaches the last first case, with room for its hour", () => {
    const { scale, to } = shown("06:14", ["07:15", "09:15"]);
    expect(to).toBe("10:00");
    expect(place(scale, at("09:15"))).toBeLessThan(90);
  });

  it("does not stretch for a case of the afternoon, nor for one that is past", () => {
    expect(shown("06:14", ["07:15", "14:00"]).to).toBe("08:30");
    expect(shown("12:00", ["07:15"])).toMatchObject({ from: "11:30", to: "14:30" });
  });

  it("marks half hours, and hours where half hours would crowd", () => {
    expect(shown("06:14").ticks).toEqual(["06:00", "06:30", "07:00", "07:30", "08:00"]);
    expect(shown("06:14", ["10:00"]).ticks).toEqual(["06:30", "07:30", "08:30", "09:30", "10:30"]);
  });

  it("keeps to the facility's half hours in a zone that stands half an hour off", () => {
    const scale = stripScale(at("06:14"), "Asia/Kolkata", []);
    expect(timeIn("Asia/Kolkata", scale.from)).toMatch(/:(00|30)$/);
  });
});

describe("planned work on the strip", () => {
  const task = (taskKey: string, minutes: number, claimedAt: string | null) => ({
    taskKey,
    title: taskKey,
    minutes,
    person: claimedAt ? "Rosa Osei" : null,
    claimedAt: claimedAt ? local(claimedAt) : null,
  });

  it("runs from when it was claimed; what nobody has taken follows after it", () => {
    const blocks = workBlocks([task("later", 10, null), task("now", 25, "06:05")], at("06:14"));
    expect(blocks.map(({ key, from, to, label }) => [key, timeIn(ZONE, from), timeIn(ZONE, to), label])).toEqual([
      ["now", "06:05", "06:30", "RO"],
      ["later", "06:30", "06:40", "10 min"],
    ]);
    expect(workEnd(blocks)).toBe(at("06:40"));
  });

  it("never ends in the past while it is still open", () => {
    const [block] = workBlocks([task("slow", 10, "05:30")], at("06:14"));
    expect(block?.to).toBeGreaterThan(at("06:14"));
    expect((block?.to ?? 0) - at("06:14")).toBeLessThanOrEqual(5 * MINUTE);
  });

  it("is nothing without work", () => expect(workEnd(workBlocks([], at("06:14")))).toBeNull());
});
