import { describe, expect, it } from "vitest";
import { merged, notYetSaid, onDutyFor, peopleOn, spanIn } from "@/lib/domain/duty/decide";
import type { DutyNow, DutySpan } from "@/lib/domain/duty/model";
import {
  decideCannot,
  decideClaim,
  decideHandOver,
  decidePause,
  decideStart,
  decideTakeOver,
} from "@/lib/domain/task-work";
import { instant, localDate, localTime, timestampOf } from "@/lib/units/time";

const HOUR = 3_600_000;
const span = (from: number, to: number, role: DutySpan["role"] = "technician"): DutySpan => ({
  role,
  from: instant(from * HOUR),
  to: instant(to * HOUR),
});
const hours = (spans: readonly DutySpan[]) => spans.map(({ from, to }) => [from / HOUR, to / HOUR]);

describe("stretches of duty", () => {
  it.each([
    { given: [span(6, 10), span(9, 12)], expected: [[6, 12]], because: "overlapping" },
    { given: [span(6, 10), span(10, 12)], expected: [[6, 12]], because: "touching" },
    { given: [span(6, 12), span(7, 8)], expected: [[6, 12]], because: "one within the other" },
    {
      given: [span(8, 9), span(6, 7)],
      expected: [
        [6, 7],
        [8, 9],
      ],
      because: "apart, and in order",
    },
    {
      given: [span(6, 10), span(9, 12, "provider")],
      expected: [
        [6, 10],
        [9, 12],
      ],
      because: "of two roles",
    },
    { given: [span(6, 8), span(9, 10), span(7, 11)], expected: [[6, 11]], because: "a third joins two" },
    { given: [span(6, 6)], expected: [], because: "empty" },
  ])("$because", ({ given, expected }) => {
    expect(hours(merged(given))).toEqual(expected);
  });

  it("what another roster says already is not said twice", () => {
    expect(hours(notYetSaid([span(6, 14)], [span(0, 7)]))).toEqual([[7, 14]]);
    expect(hours(notYetSaid([span(6, 14)], [span(8, 9)]))).toEqual([
      [6, 8],
      [9, 14],
    ]);
    expect(hours(notYetSaid([span(6, 14)], [span(5, 15)]))).toEqual([]);
    expect(hours(notYetSaid([span(6, 14)], [span(0, 7, "provider"), span(14, 20)]))).toEqual([[6, 14]]);
  });

  it("a night ends on the next day, on the facility's own clocks, also when these change", () => {
    const night = { role: "technician" as const, from: localTime("19:00"), to: localTime("07:00") };
    const of = (date: string) => {
      const { from, to } = spanIn("America/Chicago", localDate(date), night);
      return [timestampOf(from), timestampOf(to)];
    };
    expect(of("2026-11-24")).toEqual(["2026-11-25T01:00:00.000Z", "2026-11-25T13:00:00.000Z"]);
    // Clocks go back on 1 November 2026: that night has an hour more.
    expect(of("2026-10-31")).toEqual(["2026-11-01T00:00:00.000Z", "2026-11-01T13:00:00.000Z"]);
  });

  it("somebody in two roles is one line, until the later of them ends", () => {
    const row = { personId: "p", name: "Rosa Osei" };
    const people = peopleOn([
      { ...row, role: "technician", to: instant(14 * HOUR) },
      { ...row, role: "provider", to: instant(12 * HOUR) },
    ]);
    expect(people).toEqual([{ ...row, roles: ["technician", "provider"], until: 14 * HOUR }]);
    expect(onDutyFor({ onRoster: true, people }, ["supplies"])).toEqual([]);
    expect(onDutyFor({ onRoster: true, people }, ["provider"])).toEqual(people);
  });
});

const rosa = { personId: "rosa", name: "Rosa Osei", roles: ["technician" as const], active: true };
const omar = { personId: "omar", name: "Omar Quist", roles: ["technician" as const], active: true };
const sam = { personId: "sam", name: "Sam Ward", roles: ["supplies" as const], active: true };
const on = (...people: (typeof rosa)[]): DutyNow => ({
  onRoster: true,
  people: people.map(({ personId, name, roles }) => ({ personId, name, roles, until: instant(0) })),
});
const nobodyKnows: DutyNow = { onRoster: false, people: [] };
const free = { mayDo: ["technician" as const], claim: null, work: null };
const hers = {
  ...free,
  claim: { personId: "rosa", name: "Rosa Osei" },
  work: { state: "claimed" as const, since: "", reason: null },
};
const begun = { ...hers, work: { ...hers.work, state: "started" as const } };
const paused = { ...hers, work: { ...hers.work, state: "paused" as const, reason: "waits" } };
const said = (outcome: { ok: boolean; refusal?: string }) => (outcome.ok ? "done" : outcome.refusal);

describe("who has a task decides about it", () => {
  it.each([
    {
      task: free,
      by: rosa,
      claim: "done",
      start: "done",
      pause: "not-yours",
      takeOver: "already-done",
      cannot: "done",
    },
    {
      task: free,
      by: sam,
      claim: "not-allowed",
      start: "not-allowed",
      pause: "not-yours",
      takeOver: "already-done",
      cannot: "not-allowed",
    },
    {
      task: hers,
      by: rosa,
      claim: "already-done",
      start: "done",
      pause: "done",
      takeOver: "already-done",
      cannot: "done",
    },
    {
      task: begun,
      by: rosa,
      claim: "already-done",
      start: "already-done",
      pause: "done",
      takeOver: "already-done",
      cannot: "done",
    },
    {
      task: paused,
      by: rosa,
      claim: "already-done",
      start: "done",
      pause: "already-done",
      takeOver: "already-done",
      cannot: "done",
    },
    {
      task: begun,
      by: omar,
      claim: "taken",
      start: "taken",
      pause: "not-yours",
      takeOver: "done",
      cannot: "not-yours",
    },
    {
      task: begun,
      by: sam,
      claim: "taken",
      start: "taken",
      pause: "not-yours",
      takeOver: "not-allowed",
      cannot: "not-yours",
    },
  ])("%#", ({ task, by, ...expected }) => {
    expect({
      claim: said(decideClaim(task, by)),
      start: said(decideStart(task, by)),
      pause: said(decidePause(task, by)),
      takeOver: said(decideTakeOver(task, by)),
      cannot: said(decideCannot(task, by, "nobody", nobodyKnows)),
    }).toEqual(expected);
  });

  it("starting a free one takes it", () => {
    expect(decideStart(free, rosa)).toEqual({ ok: true, value: { claims: true } });
    expect(decideStart(paused, rosa)).toEqual({ ok: true, value: { claims: false } });
  });
});

describe("a task is handed over", () => {
  it.each([
    { to: omar, duty: on(rosa, omar), expected: "done" },
    { to: omar, duty: on(rosa), expected: "does-not-fit" },
    { to: omar, duty: nobodyKnows, expected: "done" },
    { to: sam, duty: nobodyKnows, expected: "does-not-fit" },
    { to: rosa, duty: nobodyKnows, expected: "invalid" },
    { to: null, duty: nobodyKnows, expected: "not-found" },
    { to: { ...omar, active: false }, duty: nobodyKnows, expected: "not-found" },
  ])("%#: $expected", ({ to, duty, expected }) => {
    expect(said(decideHandOver(begun, rosa, to, duty))).toBe(expected);
    expect(said(decideCannot(begun, rosa, to, duty))).toBe(expected);
  });

  it("says that nobody on duty may do it, when that is so", () => {
    expect(decideHandOver(begun, rosa, omar, { onRoster: true, people: [] })).toMatchObject({
      message: "Omar Quist is not on duty now. Nobody on duty may do it.",
    });
    expect(said(decideHandOver(begun, omar, rosa, nobodyKnows))).toBe("not-yours");
    expect(said(decideHandOver(free, rosa, omar, nobodyKnows))).toBe("not-yours");
  });
});
