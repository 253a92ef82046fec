import { describe, expect, it } from "vitest";
import { weekTexts } from "@/app/set-up/week/week-words";

const runs = (weekday: number, firstCase: string | null = "07:30") => ({
  weekday,
  closed: false,
  firstCase,
  ends: firstCase === null ? null : "15:30",
  needs: [],
  setUpMinutes: 0,
});
const closed = (weekday: number) => ({ ...runs(weekday, null), closed: true });

describe("a week in words", () => {
  it("puts days together that are alike and follow each other", () => {
    const days = [1, 2, 3, 4, 5].map((day) => runs(day)).concat(closed(6), closed(7));
    expect(weekTexts({ days })).toEqual(["Mon to Fri 07:30 to 15:30", "Sat, Sun closed"]);
  });

  it("keeps apart what differs, and says what nobody said", () => {
    const days = [runs(1), runs(2, "08:00"), runs(3), { ...runs(4), needs: ["sedation" as const] }, runs(5, null)];
    expect(weekTexts({ days })).toEqual([
      "Mon 07:30 to 15:30",
      "Tue 08:00 to 15:30",
      "Wed 07:30 to 15:30",
      "Thu 07:30 to 15:30, sedation",
      "Fri open, no first case",
      "Sat, Sun not said",
    ]);
    expect(weekTexts({ days: [] })).toEqual(["nothing said of any day"]);
  });
});
