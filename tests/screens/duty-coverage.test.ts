import { describe, expect, it } from "vitest";
import { coverageOf, peopleOfDay } from "@/app/tasks/duty/coverage";
import type { DutyView } from "@/lib/schemas/duty";

const AT = "2026-11-24T12:00:00Z";
const view = (date: string, people: [string, DutyView["people"][number]["spans"]][]): DutyView => ({
  date,
  people: people.map(([name, spans]) => ({ personId: name, name, spans })),
  at: AT,
});

const before = view("2026-11-23", [
  ["Ines Marlow", [{ role: "charge-provider", from: "18:00", to: "06:30" }]],
  ["Mika Lind", [{ role: "technician", from: "06:00", to: "14:30" }]],
]);
const day = view("2026-11-24", [
  ["Rosa Osei", [{ role: "technician", from: "05:00", to: "13:30" }]],
  ["Mika Lind", [{ role: "technician", from: "13:00", to: "22:00" }]],
  ["Ines Marlow", [{ role: "charge-provider", from: "18:00", to: "06:30" }]],
]);

describe("who is there on a day", () => {
  it("takes in the night that runs into it, and cuts its own night at midnight", () => {
    const people = peopleOfDay(day, before);
    expect(people.map(({ name }) => name)).toEqual(["Rosa Osei", "Mika Lind", "Ines Marlow"]);
    expect(people[2]?.stretches).toEqual([
      { role: "charge-provider", from: 0, to: 390, said: "since yesterday 18:00, to 06:30" },
      { role: "charge-provider", from: 1080, to: 1440, said: "18:00 to 06:30 next day" },
    ]);
  });

  it("names the gaps of each role that is called, and none where the stretches overlap", () => {
    expect(coverageOf(peopleOfDay(day, before))).toEqual([
      {
        role: "technician",
        gaps: [
          { from: 0, to: 300 },
          { from: 1320, to: 1440 },
        ],
      },
      { role: "biomedical-engineer", gaps: [{ from: 0, to: 1440 }] },
      { role: "charge-provider", gaps: [{ from: 390, to: 1080 }] },
    ]);
  });
});
