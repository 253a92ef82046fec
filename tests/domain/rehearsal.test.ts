import { describe, expect, it } from "vitest";
import { dice } from "@/lib/domain/dice";
import type { FacilityEvidence } from "@/lib/domain/evidence";
import type { Procedure } from "@/lib/domain/procedure/model";
import { DAILY_FDA_1993 } from "@/lib/domain/ready-made-procedures/daily-fda-1993";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import { FAULTS, rehearse, resultOf } from "@/lib/domain/rehearsal/decide";
import type { Practised, RehearsalQuestion } from "@/lib/domain/rehearsal/model";
import { imaginedPlace } from "@/lib/domain/rehearsal-place";
import { BREATHING_SCRIPTS } from "@/lib/domain/rehearsal-scripts-breathing";
import { GAS_SCRIPTS } from "@/lib/domain/rehearsal-scripts-gas";
import { SUPPLY_SCRIPTS } from "@/lib/domain/rehearsal-scripts-supply";
import { PLANTED_FAULT_STUDIES } from "@/lib/domain/rehearsal-studies";

const US: FacilityEvidence = { id: "f", timeZone: "America/Chicago", scheme: "US", pressureUnit: "psi" };
const ISO: FacilityEvidence = { id: "f", timeZone: "Europe/London", scheme: "ISO", pressureUnit: "kPa" };
const sites: readonly [string, FacilityEvidence, Procedure][] = [
  ["fifteen items, psi", US, DAILY_US],
  ["fourteen steps, psi", US, DAILY_FDA_1993],
  ["session check, kPa", ISO, DAILY_ISO],
  ["session check, bar", { ...ISO, pressureUnit: "bar" }, DAILY_ISO],
];
const SEEDS = Array.from({ length: 60 }, (_, place) => place * 7_919 + 1);
const SCRIPTS = [...SUPPLY_SCRIPTS, ...GAS_SCRIPTS, ...BREATHING_SCRIPTS];

/** Somebody who does everything and writes down what is there: read off the figures in the sights, not off the plan. */
function careful(question: RehearsalQuestion, planted: ReadonlySet<string>): Practised {
  const { key, form, signs } = question;
  const bad = planted.has(key);
  const figures = [
    ...signs
      .map(({ see }) => see)
      .join(" ")
      .matchAll(/(\d[\d,]*(?:\.\d+)?) (psi|kPa|bar|mmHg|%|mL\/min)/g),
  ].map(([, figure = ""]) => Number(figure.replace(/,/g, "")));
  const at = (value: number | undefined) => value ?? Number.NaN;
  const seen = signs.length;
  switch (form.kind) {
    case "pass":
      return { key, seen, answer: { kind: "pass", passed: !bad } };
    case "number":
      return { key, seen, answer: { kind: "number", reading: { value: at(figures.at(-1)), unit: form.unit } } };
    case "gauge":
      return {
        key,
        seen,
        answer: {
          kind: "gauge",
          reading: { value: at(figures.at(-1)), unit: form.unit },
          openWhenRead: true,
          shutAgain: true,
        },
      };
    case "choice":
      return {
        key,
        seen,
        answer: {
          kind: "choice",
          choice: question.item === "absorbent-colour" ? (bad ? "all" : "quarter") : "three-quarters",
        },
      };
    case "timed":
      return { key, seen, answer: { kind: "timed", held: !bad, seconds: bad ? 4 : 14 } };
  }
}

describe("the dice", () => {
  it("throw the same for the same seed, evenly, and not the same for another", () => {
    const throws = (seed: number) => Array.from({ length: 2_000 }, dice(seed).next);
    expect(throws(7)).toEqual(throws(7));
    expect(throws(7)).not.toEqual(throws(8));
    expect(throws(7).every((one) => one >= 0 && one < 1)).toBe(true);
    expect(throws(7).reduce((sum, one) => sum + one, 0) / 2_000).toBeCloseTo(0.5, 1);
    expect(dice(3).shuffled([1, 2, 3, 4]).sort()).toEqual([1, 2, 3, 4]);
  });
});

describe.each(sites)("a rehearsal at a site with %s", (_name, facility, procedure) => {
  const place = imaginedPlace(facility, {});

  it("is the same for the same seed, with as many faults as asked for, one an item", () => {
    for (const seed of SEEDS) {
      const one = rehearse(seed, FAULTS.usual, procedure, place);
      expect(one).toEqual(rehearse(seed, FAULTS.usual, procedure, place));
      expect(one.planted.length).toBe(FAULTS.usual);
      expect(new Set(one.planted.map(({ key }) => key)).size).toBe(FAULTS.usual);
      expect(one.questions.every(({ signs }) => signs.length > 0)).toBe(true);
    }
    expect(rehearse(1, FAULTS.usual, procedure, place)).not.toEqual(rehearse(2, FAULTS.usual, procedure, place));
  });

  it("has every fault found by somebody who does everything, and nothing good called bad", () => {
    for (const seed of SEEDS) {
      for (const faults of [FAULTS.least, FAULTS.usual, FAULTS.most]) {
        const { questions, planted } = rehearse(seed, faults, procedure, place);
        const bad = new Set(planted.map(({ key }) => key));
        const result = resultOf(
          { seed, faults },
          procedure,
          place,
          questions.map((one) => careful(one, bad)),
        );
        expect(result.faults.filter(({ outcome }) => outcome !== "found")).toEqual([]);
        expect(result).toMatchObject({ found: faults, planted: faults, falseAlarms: [], unseen: [], unanswered: [] });
      }
    }
  });

  it("has nothing found by somebody who says yes to everything unseen", () => {
    const { questions } = rehearse(4, FAULTS.most, procedure, place);
    const nothingWrong = new Set<string>();
    const healthy = rehearse(4, 0, procedure, place).questions.map((one) => ({
      ...careful(one, nothingWrong),
      seen: 0,
    }));
    const result = resultOf({ seed: 4, faults: FAULTS.most }, procedure, place, healthy);
    expect(result.found).toBe(0);
    expect(result.faults.map(({ because }) => because)).toEqual(
      result.faults.map(() => "It was answered before the fault could be seen."),
    );
    expect(result.unseen.length).toBe(questions.length - FAULTS.most);
  });

  it("plants each of its faults in one seed or another", () => {
    const seen = new Set(
      SEEDS.flatMap((seed) => rehearse(seed, FAULTS.most, procedure, place).planted.map(({ fault }) => fault)),
    );
    const asked = new Set(rehearse(1, 0, procedure, place).questions.map(({ item }) => item));
    const possible = SCRIPTS.filter(({ item }) => asked.has(item)).flatMap(({ faults }) => faults.map(({ id }) => id));
    expect(possible.filter((id) => !seen.has(id))).toEqual([]);
  });
});

describe("what counts", () => {
  const place = imaginedPlace(US, {});
  const seed =
    SEEDS.find((one) => rehearse(one, 8, DAILY_US, place).planted.some(({ fault }) => fault === "trapped-pressure")) ??
    0;
  const gauge = rehearse(seed, 8, DAILY_US, place).questions.find(({ subject }) => subject.id === "rehearsal-oxygen");
  const key = gauge?.key ?? "";
  const read = (value: number, openWhenRead: boolean, seen: number) =>
    resultOf({ seed, faults: 8 }, DAILY_US, place, [
      { key, seen, answer: { kind: "gauge", reading: { value, unit: "psi" }, openWhenRead, shutAgain: true } },
    ]).faults.find((one) => one.key === key);

  it("trapped pressure is found only with the valve open", () => {
    expect(read(300, true, 3)).toMatchObject({ outcome: "found", because: null });
    expect(read(1800, true, 1)).toMatchObject({
      outcome: "missed",
      because: "It was answered before the fault could be seen.",
    });
    expect(read(1800, false, 3)).toMatchObject({ outcome: "missed", because: expect.stringMatching(/valve shut/) });
    expect(read(1800, true, 3)).toMatchObject({
      outcome: "missed",
      because: "It was to be seen, and was called good.",
    });
  });

  it("an item that was not reached is said, and a misread figure too", () => {
    const none = resultOf({ seed, faults: 8 }, DAILY_US, place, []);
    expect(none.faults.every(({ outcome }) => outcome === "not-reached")).toBe(true);
    const good = rehearse(seed, 0, DAILY_US, place).questions.find(({ item }) => item === "suction");
    const alarm = resultOf({ seed, faults: 0 }, DAILY_US, place, [
      { key: good?.key ?? "", seen: 2, answer: { kind: "number", reading: { value: 700, unit: "mmHg" } } },
    ]);
    expect(alarm.falseAlarms).toMatchObject([
      { because: expect.stringMatching(/^700 was recorded; \d+ was to be read\.$/) },
    ]);
  });

  it("a figure that the site's own limits call good is not planted as a fault", () => {
    const own = {
      on: true,
      values: { atLeast: { value: 50, unit: "mmHg" as const } },
      version: 2,
      citation: "site policy",
    };
    const lax = imaginedPlace(US, { suction: own });
    const planted = SEEDS.flatMap((one) => rehearse(one, 8, DAILY_US, lax).planted.map(({ fault }) => fault));
    expect(planted).not.toContain("suction-weak");
    expect(planted).toContain("pipeline-low");
  });
});

describe("the published studies", () => {
  it("stand with their figures and citations", () => {
    expect(PLANTED_FAULT_STUDIES.map(({ share }) => share)).toEqual([0.44, 0.258, 0.299, null]);
    expect(PLANTED_FAULT_STUDIES.every(({ citation }) => citation.length > 20)).toBe(true);
  });
});
