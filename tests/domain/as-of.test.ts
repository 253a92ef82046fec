import { describe, expect, it } from "vitest";
import { countThen, dayAt, piecesOf } from "@/app/moments/day-at";
import { decideMoment, differences, stillStood } from "@/lib/domain/as-of/decide";
import { judge } from "@/lib/domain/judge";
import type { PastDay } from "@/lib/schemas/as-of";
import { instantOf } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

const at = (text: string) => instantOf(`2026-03-03T${text}:00Z`);

describe("a moment that can be looked back at", () => {
  it("lies between the first line of the log and now, both counted", () => {
    const [begins, now] = [at("06:00"), at("12:00")];
    expect(decideMoment(at("06:00"), now, begins).ok).toBe(true);
    expect(decideMoment(at("12:00"), now, begins).ok).toBe(true);
    expect(decideMoment(at("12:01"), now, begins)).toMatchObject({ ok: false, field: "at" });
    expect(decideMoment(at("05:59"), now, begins)).toMatchObject({ ok: false, field: "at" });
  });

  it("finds a line standing until the clock turns it or its day ends", () => {
    const line = { goodUntil: "2026-03-03T11:00:00Z" };
    const ends = at("10:30");
    expect(stillStood(line, at("23:00"), at("10:59"))).toBe(true);
    expect(stillStood(line, at("23:00"), at("11:00"))).toBe(false);
    expect(stillStood({ goodUntil: null }, ends, at("10:29"))).toBe(true);
    expect(stillStood({ goodUntil: null }, ends, at("10:30"))).toBe(false);
  });
});

describe("what differs between a line and its replay", () => {
  const judged = judge(readyRoom("US"));
  const stored = JSON.parse(JSON.stringify(judged)) as typeof judged;

  it("is nothing for the same answer, in whatever order its keys were stored", () => {
    const turned = Object.fromEntries(Object.entries(stored).reverse()) as unknown as typeof judged;
    expect(differences(stored, judged)).toEqual([]);
    expect(differences(turned, judged)).toEqual([]);
  });

  it("is named, part by part; when it would turn is left out", () => {
    expect(differences({ ...stored, state: "to-check", goodUntil: null }, judged)).toEqual(["state"]);
    expect(differences({ ...stored, limits: ["no-air"], owed: [] }, judged)).toEqual(["limits"]);
    expect(differences({ ...stored, marks: { ...stored.marks, provider: null } }, judged)).toEqual(["marks"]);
  });
});

describe("a day on the slider", () => {
  const stretch = (from: string, to: string | null, state: "to-check" | "ready") => ({
    from: `2026-03-03T${from}:00Z`,
    to: to === null ? null : `2026-03-03T${to}:00Z`,
    state,
    startable: state === "ready",
    headline: null,
    more: 0,
  });
  const room = (roomId: string, more: Partial<PastDay["rooms"][number]>): PastDay["rooms"][number] => ({
    roomId,
    name: roomId,
    firstCase: null,
    busy: [],
    stretches: [],
    ...more,
  });
  const day: PastDay = {
    facility: { id: "f", name: "F", timeZone: "UTC", scheme: "US", pressureUnit: "psi" },
    date: "2026-03-03",
    from: "2026-03-03T04:00:00Z",
    to: "2026-03-03T14:00:00Z",
    rooms: [
      room("A", { stretches: [stretch("05:00", "06:00", "to-check"), stretch("06:00", null, "ready")] }),
      room("B", { busy: [{ state: "closed", from: "2026-03-03T05:10:00Z", to: null }] }),
      room("C", {
        stretches: [stretch("05:00", null, "to-check")],
        busy: [{ state: "in-use", from: "2026-03-03T07:00:00Z", to: "2026-03-03T08:00:00Z" }],
      }),
    ],
    at: "2026-03-03T14:00:00Z",
  };
  const stateAt = (time: string) => dayAt(day, at(time)).map(({ stretch: one, busy }) => busy ?? one?.state ?? null);

  it("says of each room what held, at the turn the newer", () => {
    expect(stateAt("04:30")).toEqual([null, null, null]);
    expect(stateAt("05:59")).toEqual(["to-check", "closed", "to-check"]);
    expect(stateAt("06:00")).toEqual(["ready", "closed", "to-check"]);
    expect(stateAt("07:00")).toEqual(["ready", "closed", "in-use"]);
    expect(stateAt("08:00")).toEqual(["ready", "closed", "to-check"]);
  });

  it("counts what could start or was in use, closed rooms aside", () => {
    expect(countThen(dayAt(day, at("05:30")))).toEqual({ good: 0, of: 2 });
    expect(countThen(dayAt(day, at("07:30")))).toEqual({ good: 2, of: 2 });
  });

  it("is drawn as pieces of the whole, the last one to its end", () => {
    expect(piecesOf(day.rooms[0] as PastDay["rooms"][number], day)).toEqual([
      { from: 0.1, to: 0.2, state: "to-check" },
      { from: 0.2, to: 1, state: "ready" },
    ]);
  });
});
