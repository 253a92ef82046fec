import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastSquaresLine, predictedWithin } from "@/lib/calculations/least-squares";
import { TREND_METHODS, type TrendMethod, trendCrossing, trendLine } from "@/lib/calculations/trend";
import { inOrder, type TrendPoint } from "@/lib/calculations/trend-points";
import { day } from "@/lib/units/measure";
import { allFinite, answerOf, computed, refusalOf } from "@/tests/support/calculated";

const series = (values: readonly number[], every = 1): TrendPoint[] =>
  values.map((value, index) => ({ at: day(index * every), value }));
const falling = (limit: number, points: readonly TrendPoint[], method: TrendMethod) =>
  trendCrossing({ points, limit, side: "falls-below", method });

/** The same random readings on every run: a linear congruential generator, then Box and Muller. */
function* normals(seed: number): Generator<number> {
  let state = seed;
  const next = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
  for (;;) yield Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
}

describe.each(TREND_METHODS)("the trend of readings, %s", (method) => {
  it("follows an exact line to its crossing, without doubt about it", () => {
    const { value, uncertainty } = computed(falling(40, series([100, 97, 94, 91, 88, 85]), method));
    expect(value).toMatchObject({ passed: false });
    expect(value.perDay).toBeCloseTo(-3, 9);
    expect(value.at).toBeCloseTo(20, 6);
    expect(uncertainty?.low).toBeCloseTo(20, 5);
    expect(uncertainty?.high).toBeCloseTo(20, 5);
  });

  it("says that a limit was passed already", () => {
    expect(answerOf(falling(90, series([100, 97, 94, 91, 88, 85]), method))).toMatchObject({ passed: true });
  });

  it("does not mind the order of the readings", () => {
    const points = fc.array(
      fc.record({ at: fc.integer({ min: 0, max: 40 }).map(day), value: fc.integer({ min: 0, max: 20 }) }),
      {
        minLength: 5,
        maxLength: 25,
      },
    );
    fc.assert(
      fc.property(points, fc.func(fc.integer()), (given, key) => {
        const shuffled = [...given].sort((one, other) => key(one) - key(other));
        expect(trendLine(shuffled, method)).toEqual(trendLine(given, method));
      }),
    );
  });

  it("moves with the readings: shifted in time or value, scaled, upside down", () => {
    const values = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 8, maxLength: 20 });
    fc.assert(
      fc.property(values, (given) => {
        const line = answerOf(trendLine(series(given), method));
        const moved = answerOf(trendLine(series(given.map((value) => 7 - 2 * value)), method));
        expect(moved.perDay).toBeCloseTo(-2 * line.perDay, 6);
        expect(moved.perDayLow).toBeCloseTo(-2 * line.perDayHigh, 6);
        expect(answerOf(trendLine(series(given, 2), method)).perDay).toBeCloseTo(line.perDay / 2, 6);
      }),
    );
  });

  it("tells how many readings there are and are needed when there are not enough", () => {
    const answer = trendLine(series([1, 2, 3, 4]), method);
    expect(refusalOf(answer)).toBe("not-enough-data");
    expect(answer).toMatchObject({ have: 4, need: 5 });
    expect(refusalOf(trendLine([], method))).toBe("not-enough-data");
    const sameDay = [1, 2, 3, 4, 5, 6].map((value) => ({ at: day(3), value }));
    expect(trendLine(sameDay, method)).toMatchObject({ refusal: "not-enough-data", have: 1 });
  });

  it("forecasts nothing from level readings, from scatter, or against the side asked for", () => {
    expect(refusalOf(falling(40, series([50, 50, 50, 50, 50, 50, 50]), method))).toBe("no-crossing");
    expect(refusalOf(falling(40, series([50, 53, 48, 52, 49, 51, 50, 52]), method))).toBe("no-crossing");
    const downhill = series([50, 53, 48, 52, 49, 51, 47, 50]);
    expect(answerOf(trendLine(downhill, method)).perDay).toBeLessThan(0);
    expect(refusalOf(falling(40, downhill, method))).toBe("no-crossing");
    expect(refusalOf(falling(40, series([50, 51, 52, 53, 54, 55]), method))).toBe("no-crossing");
    expect(refusalOf(falling(-1e9, series([50, 49, 48, 47, 46, 45]), method))).toBe("no-crossing");
  });

  it("rises to a limit as it falls to one", () => {
    const up = computed(
      trendCrossing({ points: series([10, 13, 15, 20, 22, 26]), limit: 60, side: "rises-above", method }),
    );
    const down = computed(falling(-60, series([-10, -13, -15, -20, -22, -26]), method));
    expect(up.value.at).toBeCloseTo(down.value.at, 9);
    expect(up.uncertainty?.low).toBeCloseTo(down.uncertainty?.low ?? 0, 9);
    expect(up.uncertainty?.high).toBeCloseTo(down.uncertainty?.high ?? 0, 9);
  });

  it("holds the true crossing in its interval in 93 of 100 simulated series or more", () => {
    const noise = normals(20_261_125);
    let told = 0;
    let held = 0;
    for (let run = 0; run < 400; run += 1) {
      const points = series(Array.from({ length: 14 }, (_, index) => 100 - 2 * index + 3 * (noise.next().value ?? 0)));
      const answer = falling(60, points, method);
      if (!answer.ok) continue;
      told += 1;
      if ((answer.uncertainty?.low ?? 99) <= 20 && (answer.uncertainty?.high ?? 0) >= 20) held += 1;
    }
    expect(told).toBeGreaterThan(380);
    expect(held / told).toBeGreaterThanOrEqual(0.93);
  });

  it("answers finite numbers or a reason, whatever it is given", () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true });
    const points = fc.array(
      fc.record({ at: fc.oneof(any, fc.double({ min: 0, max: 1000, noNaN: true })).map(day), value: any }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(
        points,
        any,
        fc.constantFrom("falls-below" as const, "rises-above" as const),
        (given, limit, side) => {
          const answer = trendCrossing({ points: given, limit, side, method });
          if (answer.ok) expect(allFinite(answer)).toBe(true);
          else refusalOf(answer);
        },
      ),
    );
  });
});

describe("the robust line", () => {
  it("does not follow two wild readings among ten, where least squares does", () => {
    const values = [100, 98, 96, 94, 300, 90, 88, 86, 84, -500];
    expect(answerOf(trendLine(series(values), "robust")).perDay).toBeCloseTo(-2, 6);
    expect(answerOf(trendLine(series(values), "least-squares")).perDay).toBeLessThan(-20);
  });

  it("is exact where readings share a time", () => {
    const points = [0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5].map((at, index) => ({
      at: day(at),
      value: 10 - at + (index % 2) * 0.5,
    }));
    const line = answerOf(trendLine(points, "robust"));
    expect(line.perDay).toBeCloseTo(-1, 9);
    expect(line.value + line.perDay * (0 - line.at)).toBeCloseTo(10.25, 9);
  });

  it("tells an interval that holds the crossing of a parallel through each reading", () => {
    const points = series([100, 95, 97, 90, 91, 84, 86, 79, 80, 74]);
    const line = answerOf(trendLine(points, "robust"));
    const { uncertainty } = computed(falling(87, points, "robust"));
    for (const { at, value } of points) {
      const meets = at + (87 - value) / line.perDay;
      expect(uncertainty?.low).toBeLessThan(meets);
      expect(uncertainty?.high).toBeGreaterThan(meets);
    }
  });

  it("refuses more readings than it can pair", () => {
    expect(refusalOf(trendLine(series(Array.from({ length: 501 }, (_, index) => index)), "robust"))).toBe(
      "too-many-readings",
    );
    expect(trendLine(series(Array.from({ length: 500 }, (_, index) => index)), "robust").ok).toBe(true);
  });
});

describe("the prediction interval of least squares", () => {
  it("meets the limit where the forecast says a further reading may", () => {
    const points = series([100, 96, 95, 91, 90, 85, 84, 82]);
    const line = leastSquaresLine(inOrder(points));
    const { uncertainty } = computed(falling(70, points, "least-squares"));
    const at = (time: number) => line.value + line.perDay * (time - line.at);
    for (const [time, side] of [
      [uncertainty?.low ?? 0, -1],
      [uncertainty?.high ?? 0, 1],
    ] as const) {
      expect(at(time) + side * predictedWithin(line, time)).toBeCloseTo(70, 6);
    }
  });

  it("holds a further reading in about 95 of 100 simulated series", () => {
    const noise = normals(7);
    let held = 0;
    for (let run = 0; run < 1000; run += 1) {
      const line = leastSquaresLine(
        series(Array.from({ length: 10 }, (_, index) => index + (noise.next().value ?? 0))),
      );
      const further = 14 + (noise.next().value ?? 0);
      if (Math.abs(further - (line.value + line.perDay * (14 - line.at))) <= predictedWithin(line, 14)) held += 1;
    }
    expect(held / 1000).toBeGreaterThan(0.93);
    expect(held / 1000).toBeLessThan(0.97);
  });
});
