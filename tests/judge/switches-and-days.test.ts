import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import {
  answered,
  bad,
  cylinderOf,
  gauge,
  good,
  minutesLater,
  withValues,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { addDays, localDate } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

/** Settings that are switches, counts and days of a calendar: both sides of each, as shipped and as a site may set them. */
const READY = readyRoom();
const TODAY = localDate("2026-03-03");
const today = (days: number) => addDays(TODAY, days);

const worst = (evidence: Evidence, rule: string): string =>
  judge(evidence).reasons.find((reason) => reason.rule === rule)?.severity ?? "nothing";

describe("hypoxic guard failed", () => {
  const failed = answered(READY, "hypoxic-guard", bad);
  const isolated = answered(failed, "nitrous-oxide-isolated", good);
  const allowing = (room: Evidence) => withValues(room, "hypoxic-guard", { mayIsolate: true });

  it("stops, whatever is isolated, as shipped", () => {
    expect(judge(failed).state).toBe("do-not-use");
    expect(judge(isolated).state).toBe("do-not-use");
  });

  it("takes away nitrous oxide where the site allows it and somebody signed that it is isolated", () => {
    expect(judge(allowing(isolated))).toMatchObject({ state: "ready-limited", limits: ["no-nitrous-oxide"] });
    expect(judge(allowing(failed)).state).toBe("do-not-use");
    const unsigned = {
      ...isolated,
      observations: isolated.observations.map((one) =>
        one.item === "nitrous-oxide-isolated" ? { ...one, check: null } : one,
      ),
    };
    expect(judge(allowing(unsigned)).state).toBe("do-not-use");
  });
});

describe("a reserve judged otherwise than by its pressure", () => {
  const RULE = "reserve-oxygen-low";
  const stopsAt = (psi: number, judgeBy: string, limits: Record<string, Quantity>) => {
    const read = answered(READY, "cylinder-gauge", gauge(psi), cylinderOf(READY, "oxygen"));
    const setting = { on: true, values: { judgeBy, ...limits }, version: 1, citation: "site" };
    return judge({ ...read, settings: { [RULE]: setting } }).reasons.find(({ rule }) => rule === RULE) ?? null;
  };
  /** The lowest whole psi that is enough; below it none is, above it every one. */
  function enoughFrom(judgeBy: string, limits: Record<string, Quantity> = {}): number {
    const psi = Array.from({ length: 190 }, (_, step) => 10 * step);
    const enough = psi.filter((one) => stopsAt(one, judgeBy, limits) === null);
    expect(enough).toEqual(psi.filter((one) => one >= (enough[0] ?? Number.NaN)));
    return enough[0] ?? Number.NaN;
  }

  it("by pressure: 1,000 psi", () => {
    expect(enoughFrom("pressure")).toBe(1_000);
  });

  it("by litres: a full half cylinder holds 340 L, and a gauge's error below that is what is asked for", () => {
    const from = enoughFrom("litres");
    expect(from).toBeGreaterThan(940);
    expect(from).toBeLessThanOrEqual(1_000);
    expect(stopsAt(from - 10, "litres", {})).toMatchObject({
      measured: { unit: "L" },
      limit: { value: 310, unit: "L" },
    });
  });

  it.each(["litres", "minutes"] as const)("by %s: more is asked for where the site asks for more", (judgeBy) => {
    const [name, unit] =
      judgeBy === "litres" ? (["atLeastLitres", "L"] as const) : (["atLeastMinutes", "min"] as const);
    const shipped = enoughFrom(judgeBy);
    expect(enoughFrom(judgeBy, { [name]: quantity(judgeBy === "litres" ? 200 : 8, unit) })).toBeLessThan(shipped);
    expect(enoughFrom(judgeBy, { [name]: quantity(judgeBy === "litres" ? 400 : 20, unit) })).toBeGreaterThan(shipped);
  });

  it("by minutes: the limit is told in minutes", () => {
    expect(stopsAt(900, "minutes", {})).toMatchObject({ measured: { unit: "min" }, limit: { value: 15, unit: "min" } });
  });
});

describe("service with its window until that day", () => {
  const due = (to: number, stopsAfter = 0) =>
    withValues(
      withWorkstation(READY, () => ({
        serviceDue: [{ plan: "annual", due: today(to - 5), window: { from: today(to - 10), to: today(to) } }],
      })),
      "service-late",
      { stopsAfter: quantity(stopsAfter, "d") },
    );

  it.each([
    [11, 0, "nothing"],
    [10, 0, "due"],
    [0, 0, "due"],
    [-1, 0, "limits"],
    [-300, 0, "limits"],
    [-30, 30, "limits"],
    [-31, 30, "stops"],
    [-1, 1, "limits"],
    [-2, 1, "stops"],
  ])("%d days from today, stopping after %d: %s", (to, stopsAfter, expected) => {
    expect(worst(due(to, stopsAfter), "service-late")).toBe(expected);
  });
});

describe("a reading that will reach its limit", () => {
  const crossing = (days: number, within?: number) => {
    const trend = {
      item: "breathing-leak" as const,
      subject: { kind: "workstation" as const, id: "workstation-1" },
      slope: quantity(4, "mL/min"),
      crossing: today(days),
    };
    const room = { ...READY, trends: [trend] };
    return within === undefined ? room : withValues(room, "trend-crossing", { within: quantity(within, "d") });
  };

  it.each([
    [-3, undefined, "due"],
    [14, undefined, "due"],
    [15, undefined, "nothing"],
    [15, 15, "due"],
    [15, 14, "nothing"],
    [0, 0, "due"],
    [1, 0, "nothing"],
  ])("in %d days, looked into from %s days before: %s", (days, within, expected) => {
    expect(worst(crossing(days, within), "trend-crossing")).toBe(expected);
  });
});

describe("failures in seven days", () => {
  const failed = (times: number, failures?: number) => {
    const room = withWorkstation(READY, ({ id }) => ({
      recentFailures: Array.from({ length: times }, (_, day) => ({
        item: "ventilator" as const,
        subject: { kind: "workstation" as const, id },
        at: minutesLater(READY, -(day + 1) * 1_440),
      })),
    }));
    return failures === undefined ? room : withValues(room, "repeated-failures", { failures });
  };

  it.each([
    [2, undefined, "nothing"],
    [3, undefined, "due"],
    [4, 5, "nothing"],
    [5, 5, "due"],
    [1, 1, "due"],
  ])("%d of them, with %s as the site's own count: %s", (times, failures, expected) => {
    expect(worst(failed(times, failures), "repeated-failures")).toBe(expected);
  });
});

describe("a fault in words", () => {
  const reported = (minutes: number, within?: number) => {
    const room = withWorkstation(READY, () => ({
      faults: [
        {
          id: "fault",
          text: "screen flickers",
          wouldNotUse: false,
          lookedAt: false,
          reportedAt: minutesLater(READY, -minutes),
        },
      ],
    }));
    return within === undefined ? room : withValues(room, "fault-reported", { lookWithin: quantity(within, "min") });
  };

  it.each([
    [59.9, undefined, false],
    [60, undefined, true],
    [29.9, 30, false],
    [30, 30, true],
  ])("%d minutes old, to be looked at within %s: late is %s", (minutes, within, late) => {
    const [reason] = judge(reported(minutes, within)).reasons.filter(({ rule }) => rule === "fault-reported");
    expect(reason?.text.includes("not looked at within")).toBe(late);
  });
});
