import { describe, expect, it } from "vitest";
import { gammaQuantile } from "@/lib/calculations/gamma-function";
import { slopesOutside } from "@/lib/calculations/kendall";
import { leastSquaresLine } from "@/lib/calculations/least-squares";
import {
  completion,
  expectedFailures,
  meanTimeBetweenFailures,
  noFailureChance,
  yearsOf,
} from "@/lib/calculations/reliability";
import { t95 } from "@/lib/calculations/student-t";
import { robustLine } from "@/lib/calculations/theil-sen";
import { day } from "@/lib/units/measure";
import { answerOf, computed, refusalOf } from "@/tests/support/calculated";

describe("published reliability of anesthesia machines", () => {
  // Dexter et al. 1997, doi 10.1023/a:1007302030065: 109,410 machine-days, MTBF 1,351 days (3.7 years), lower 95 % limit 1,123 days.
  it("gives Dexter's mean, years and lower limit", () => {
    expect(answerOf(expectedFailures(day(109_410), day(1_351)))).toBeCloseTo(81.0, 1);
    const { value, uncertainty } = computed(meanTimeBetweenFailures(day(109_410), 81));
    expect(Math.abs(value - 1_351)).toBeLessThan(0.5);
    expect(Math.abs((uncertainty?.low ?? 0) - 1_123)).toBeLessThan(0.5);
    expect(yearsOf(day(1_351))).toBeCloseTo(3.7, 2);
  });

  // Chi-square tables: 21.026 (12 degrees, upper 5 %), 3.940 (10 degrees, lower 5 %); five failures in 100 days.
  it("has the limits that the tables of chi-square give", () => {
    const { uncertainty } = computed(meanTimeBetweenFailures(day(100), 5));
    expect(Math.abs((uncertainty?.low ?? 0) - 200 / 21.026)).toBeLessThan(0.001);
    expect(Math.abs((uncertainty?.high ?? 0) - 200 / 3.94)).toBeLessThan(0.01);
  });

  it("gives the chance of no failure in 30 days and in half a year", () => {
    expect(answerOf(noFailureChance(day(30), day(1_351)))).toBeCloseTo(97.8, 1);
    expect(Math.abs(answerOf(noFailureChance(day(182.5), day(1_351))) - 87.4)).toBeLessThan(0.1);
  });

  // Survey of check forms in France 1995 to 1997 (abstract): 3,926 of 5,096 forms. Accreditation practice: 47 of 50.
  it.each([
    { done: 3_926, due: 5_096, percent: 77.0 },
    { done: 47, due: 50, percent: 94.0 },
  ])("is $percent % for $done of $due", ({ done, due, percent }) => {
    expect(Math.abs(answerOf(completion(done, due)) - percent)).toBeLessThan(0.05);
  });

  it("is n/a for 0 of 0, neither 0 nor 100 %", () => {
    expect(refusalOf(completion(0, 0))).toBe("nothing-due");
  });
});

describe("published tables of statistics", () => {
  // Chi-square tables, upper and lower 5 % points (any statistics text; from memory). Chi-square is twice the gamma of half the degrees.
  it.each([
    { degrees: 2, below: 0.95, expected: 5.991 },
    { degrees: 10, below: 0.95, expected: 18.307 },
    { degrees: 10, below: 0.05, expected: 3.94 },
    { degrees: 100, below: 0.95, expected: 124.342 },
    { degrees: 100, below: 0.05, expected: 77.929 },
  ])("chi-square of $degrees degrees is $expected at $below", ({ degrees, below, expected }) => {
    expect(Math.abs(2 * gammaQuantile(degrees / 2, below) - expected)).toBeLessThan(0.001);
  });

  // Student's t, 5 % on both sides together (any statistics text; from memory).
  it.each([
    { degrees: 1, expected: 12.706 },
    { degrees: 2, expected: 4.303 },
    { degrees: 3, expected: 3.182 },
    { degrees: 8, expected: 2.306 },
    { degrees: 9, expected: 2.262 },
    { degrees: 30, expected: 2.042 },
    { degrees: 120, expected: 1.98 },
  ])("t of $degrees degrees is $expected", ({ degrees, expected }) => {
    expect(Math.abs(t95(degrees) - expected)).toBeLessThan(0.0006);
  });

  // Critical values of Kendall's S at 5 % on both sides together: 10, 13, 15, 18, 20, 23 for 5 to 10 values (tables of Kendall's
  // rank correlation, from memory). S = pairs - 2 x inversions.
  it.each([
    { count: 5, s: 10 },
    { count: 6, s: 13 },
    { count: 7, s: 15 },
    { count: 8, s: 18 },
    { count: 9, s: 20 },
    { count: 10, s: 23 },
  ])("Kendall's S is significant from $s for $count values", ({ count, s }) => {
    const pairs = (count * (count - 1)) / 2;
    const times = Array.from({ length: count }, (_, index) => index);
    expect(pairs - 2 * (slopesOutside(times, pairs) ?? -1)).toBe(s);
  });

  // Kendall's normal approximation: variance n(n-1)(2n+5)/18, less t(t-1)(2t+5)/18 for each group of t equal times; 1.96 of its root.
  // 100 values: 4,950 pairs, root 335.8. Five times two at one time: 40 pairs, root 10.95.
  it("takes the normal approximation for many values and for equal times", () => {
    const many = Array.from({ length: 100 }, (_, index) => index);
    expect(slopesOutside(many, 4_950)).toBe(Math.floor((4_950 - 1.96 * 335.8) / 2) - 1);
    expect(slopesOutside([0, 0, 1, 1, 2, 2, 3, 3, 4, 4], 40)).toBe(Math.floor((40 - 1.96 * 10.95) / 2) - 1);
  });

  // Anscombe, The American Statistician 1973;27:17, first data set: slope 0.5001, intercept 3.0001, standard error of the slope 0.1179.
  it("gives Anscombe's line", () => {
    const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
    const line = leastSquaresLine(x.map((at, index) => ({ at: day(at), value: y[index] ?? 0 })));
    expect(line.perDay).toBeCloseTo(0.5001, 4);
    expect(line.value - line.perDay * line.at).toBeCloseTo(3.0001, 4);
    expect((line.perDayHigh - line.perDay) / t95(9)).toBeCloseTo(0.1179, 4);
  });

  // Sen, J Am Stat Assoc 1968;63:1379, worked example (from memory): slope 4, interval 26/7 to 35/8.
  it("gives Sen's slope and interval", () => {
    const x = [1, 2, 3, 4, 10, 12, 18];
    const y = [9, 15, 19, 20, 45, 55, 78];
    const line = robustLine(x.map((at, index) => ({ at: day(at), value: y[index] ?? 0 })));
    expect(line?.perDay).toBeCloseTo(4, 9);
    expect(line?.perDayLow).toBeCloseTo(26 / 7, 9);
    expect(line?.perDayHigh).toBeCloseTo(35 / 8, 9);
  });
});
