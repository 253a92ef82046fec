import { absorbentLife } from "@/lib/calculations/absorbent-life";
import { noFailureChance } from "@/lib/calculations/reliability";
import { type TrendMethod, trendLine } from "@/lib/calculations/trend";
import type { Agent } from "@/lib/calculations/vaporizer-agents";
import { VAPORIZER_METHODS, vaporizerUse } from "@/lib/calculations/vaporizer-use";
import { day, gram, litre, litrePer100Gram, litrePerMinute, millilitrePerMinute, percent } from "@/lib/units/measure";
import { type Plot, type PlotPoint, steps } from "./plot";

const METHOD_WORDS = {
  "total-flow": "of total flow",
  "carrier-flow": "of carrier flow",
  "rule-of-thumb": "rule of thumb",
};
const METHOD_STYLES = { "total-flow": "first", "carrier-flow": "second", "rule-of-thumb": "third" } as const;

export function vaporizerAgainstFlow(agent: Agent, concentrationPct: number, point: PlotPoint | null): Plot {
  const xs = steps(0, Math.max(6, (point?.x ?? 0) * 1.1), 24);
  return {
    title: `Liquid ${agent} against fresh gas flow, at ${concentrationPct} %`,
    x: { label: "Fresh gas", unit: "L/min" },
    y: { label: "Liquid", unit: "mL/h" },
    xs,
    lines: VAPORIZER_METHODS.map((method) => ({
      name: METHOD_WORDS[method],
      style: METHOD_STYLES[method],
      ys: xs.map((flow) => {
        const use = vaporizerUse({
          agent,
          concentration: percent(concentrationPct),
          freshGas: litrePerMinute(flow),
          method,
        });
        return use.ok ? use.value : null;
      }),
    })),
    points: point ? [point] : [],
  };
}

export interface AbsorbentCharge {
  readonly massG: number;
  readonly capacityLPer100g: number;
  readonly co2MLPerMin: number;
  readonly minuteVentilationLPerMin: number;
  readonly absorbedL: number;
}

/** Near the minute ventilation the life grows without end: the plot stops where hardly any load is left. */
const LAST_SHARE = 0.8;

export function absorbentAgainstFlow(charge: AbsorbentCharge, point: PlotPoint | null): Plot {
  const xs = steps(0, charge.minuteVentilationLPerMin * LAST_SHARE, 40);
  const lives = xs.map((flow) =>
    absorbentLife({
      mass: gram(charge.massG),
      capacity: litrePer100Gram(charge.capacityLPer100g),
      co2: millilitrePerMinute(charge.co2MLPerMin),
      freshGas: litrePerMinute(flow),
      minuteVentilation: litrePerMinute(charge.minuteVentilationLPerMin),
      absorbed: litre(charge.absorbedL),
    }),
  );
  const told = (pick: "low" | "high" | "value") =>
    lives.map((life) => {
      if (!life.ok || typeof life.value !== "number") return null;
      return pick === "value" ? life.value : (life.uncertainty?.[pick] ?? null);
    });
  return {
    title: "Life of the absorbent against fresh gas flow",
    x: { label: "Fresh gas", unit: "L/min" },
    y: { label: "Life", unit: "h" },
    xs,
    lines: [
      { name: "at the capacity given", style: "first", ys: told("value") },
      { name: "at 10 L/100 g or the one given", style: "edge", ys: told("low") },
      { name: "at 15 L/100 g or the one given", style: "edge", ys: told("high") },
    ],
    points: point && point.x <= charge.minuteVentilationLPerMin * LAST_SHARE ? [point] : [],
  };
}

export interface TrendAsked {
  readonly readings: readonly { readonly at: number; readonly value: number }[];
  readonly limit: number;
  readonly method: TrendMethod;
  readonly crossing: { readonly day: number; readonly low: number; readonly high: number } | null;
}

/** The readings, the line, the limit, and where they meet. */
export function trendOfReadings({ readings, limit, method, crossing }: TrendAsked): Plot | null {
  const line = trendLine(
    readings.map((one) => ({ at: day(one.at), value: one.value })),
    method,
  );
  if (!line.ok) return null;
  const { at, value, perDay } = line.value;
  const days = readings.map((one) => one.at);
  const first = Math.min(...days);
  const last = Math.max(...days);
  const furthest = last + 6 * (last - first);
  const xs = steps(first, Math.max(last, Math.min(crossing?.high ?? last, furthest)), 40);
  return {
    title: "Readings, their line and the limit",
    x: { label: "Day", unit: "days" },
    y: { label: "Reading", unit: "" },
    xs,
    lines: [
      { name: "line through the readings", style: "first", ys: xs.map((x) => value + perDay * (x - at)) },
      { name: "limit", style: "limit", ys: xs.map(() => limit) },
    ],
    points: [
      ...readings.map((one) => ({ name: "reading", x: one.at, y: one.value })),
      ...(crossing && crossing.day <= furthest ? [{ name: "crossing", x: crossing.day, y: limit }] : []),
    ],
  };
}

export function noFailureAgainstPeriod(mtbfDays: number, point: PlotPoint | null): Plot {
  const xs = steps(0, Math.max(mtbfDays, (point?.x ?? 0) * 1.1), 40);
  return {
    title: "Chance of no failure against the period",
    x: { label: "Period", unit: "days" },
    y: { label: "No failure", unit: "%" },
    xs,
    lines: [
      {
        name: "constant failure rate",
        style: "first",
        ys: xs.map((period) => {
          const chance = noFailureChance(day(period), day(mtbfDays));
          return chance.ok ? chance.value : null;
        }),
      },
    ],
    points: point ? [point] : [],
  };
}
