import { describe, expect, it } from "vitest";
import { ordinaryMorning } from "@/lib/domain/rule-effect";
import { localDate } from "@/lib/units/time";

const days = (...rooms: number[]) =>
  rooms.map((count, place) => ({ date: localDate(`2026-11-${10 + place}`), rooms: count }));

describe("a rule on an ordinary morning", () => {
  it.each([
    {
      shown: [4, 4, 4],
      ran: [20, 20, 20],
      share: 0.2,
      setWrong: false,
      because: "one room in five is not more than one in five",
    },
    { shown: [5, 5, 5], ran: [20, 20, 20], share: 0.25, setWrong: true, because: "one in four is" },
    {
      shown: [20, 1, 1],
      ran: [20, 20, 20],
      share: 0.05,
      setWrong: false,
      because: "one bad morning is not an ordinary one",
    },
    { shown: [20, 0], ran: [20, 20], share: 0, setWrong: false, because: "of two mornings the quieter one counts" },
    {
      shown: [3, 0, 0],
      ran: [3, 0, 0],
      share: 1,
      setWrong: true,
      because: "a day on which nothing ran is not a morning",
    },
    { shown: [9], ran: [3], share: 1, setWrong: true, because: "there is no more than all rooms" },
    { shown: [3], ran: [0], share: null, setWrong: false, because: "without a morning nothing is known" },
  ])("$shown of $ran: $because", ({ shown, ran, share, setWrong }) => {
    expect(ordinaryMorning("suction", days(...shown), days(...ran))).toEqual({ share, setWrong, everyMorning: false });
  });

  it("what is owed in every room every morning is not called set wrong", () => {
    expect(ordinaryMorning("not-checked", days(20), days(20))).toEqual({
      share: 1,
      setWrong: false,
      everyMorning: true,
    });
  });
});
