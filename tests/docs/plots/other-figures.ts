import { absorbentLife } from "@/lib/calculations/absorbent-life";
import { oxygenCellLife } from "@/lib/calculations/oxygen-cell-life";
import { noFailureChance } from "@/lib/calculations/reliability";
import { trendCrossing } from "@/lib/calculations/trend";
import { AGENTS } from "@/lib/calculations/vaporizer-agents";
import { VAPORIZER_METHODS, vaporizerUse } from "@/lib/calculations/vaporizer-use";
import {
  day,
  gram,
  hour,
  litrePer100Gram,
  litrePerMinute,
  millilitrePerMinute,
  percent,
  percentHour,
} from "@/lib/units/measure";
import { type Figure, steps } from "./figure";

function use(agent: (typeof AGENTS)[number], flow: number, method: (typeof VAPORIZER_METHODS)[number]): number {
  const answer = vaporizerUse({ agent, concentration: percent(2), freshGas: litrePerMinute(flow), method });
  if (!answer.ok) throw new Error(answer.message);
  return answer.value;
}

const vaporizer: Figure = {
  title: "Liquid used at 2 %, by agent",
  says: "In proportion to the fresh gas flow; a millilitre of sevoflurane gives the least vapour and so is used fastest.",
  x: { label: "fresh gas, L/min", from: 0, to: 6, step: 1 },
  y: { label: "mL/h of liquid", from: 0, to: 50, step: 10 },
  curves: AGENTS.map((agent) => ({
    name: agent,
    points: steps(0, 6, 24).map((flow) => [flow, use(agent, flow, "total-flow")] as const),
  })),
};

const vaporizerMethods: Figure = {
  title: "Isoflurane at 2 %: the exact formulas and the rule of thumb",
  says: "The two exact formulas differ by the vapour itself, 2 % here; the rule of thumb lies below them for isoflurane.",
  x: { label: "fresh gas, L/min", from: 0, to: 6, step: 1 },
  y: { label: "mL/h of liquid", from: 0, to: 50, step: 10 },
  curves: VAPORIZER_METHODS.map((method) => ({
    name: method,
    points: steps(0, 6, 24).map((flow) => [flow, use("isoflurane", flow, method)] as const),
  })),
};

function life(capacity: number, flow: number): number | null {
  const answer = absorbentLife({
    mass: gram(1000),
    capacity: litrePer100Gram(capacity),
    co2: millilitrePerMinute(224),
    freshGas: litrePerMinute(flow),
    minuteVentilation: litrePerMinute(6),
  });
  if (!answer.ok) throw new Error(answer.message);
  return typeof answer.value === "number" ? answer.value : null;
}

const absorbent: Figure = {
  title: "Life of 1 kg of absorbent, 224 mL/min of carbon dioxide, 6 L/min of minute ventilation",
  says: "Life grows with fresh gas flow and has no limit by carbon dioxide once it reaches the minute ventilation; age and dryness still end it.",
  x: { label: "fresh gas, L/min", from: 0, to: 6, step: 1 },
  y: { label: "hours", from: 0, to: 40, step: 10 },
  curves: [10, 12, 15].map((capacity) => ({
    name: `${capacity} L/100 g`,
    points: steps(0, 5.9, 59).flatMap((flow) => {
      const hours = life(capacity, flow);
      return hours === null ? [] : [[flow, hours] as const];
    }),
  })),
};

const cell: Figure = {
  title: "Life of an oxygen cell of 500,000 percent-hours, by hours a day at 60 % oxygen",
  says: "Two and three quarter years in room air alone, less than one in all-day use at 60 %.",
  x: { label: "hours a day at 60 %, the rest in air", from: 0, to: 24, step: 4 },
  y: { label: "days", from: 0, to: 1200, step: 200 },
  curves: [
    {
      name: "days left",
      points: steps(0, 24, 24).map((hours) => {
        const answer = oxygenCellLife({
          rated: percentHour(500_000),
          use: [
            { percent: percent(60), hoursPerDay: hour(hours) },
            { percent: percent(21), hoursPerDay: hour(24 - hours) },
          ],
        });
        if (!answer.ok) throw new Error(answer.message);
        return [hours, answer.value] as const;
      }),
    },
  ],
};

/** Invented readings of an oxygen sensor in air that drifts down; one of them is wrong. */
const READINGS = [21.0, 21.0, 20.9, 20.9, 20.8, 20.9, 20.8, 20.2, 20.7, 20.7, 20.6, 20.6, 20.5, 20.6].map(
  (value, week) => [week * 7, value] as const,
);

function drift(): Figure {
  const LIMIT = 20;
  const points = READINGS.map(([at, value]) => ({ at: day(at), value }));
  const answer = trendCrossing({ points, limit: LIMIT, side: "falls-below", method: "robust" });
  if (!answer.ok || answer.uncertainty === null) throw new Error("the invented readings have a crossing");
  const { at, perDay } = answer.value;
  return {
    title: "A drifting reading, its robust line and when it meets its limit",
    says: "One wrong reading among fourteen does not bend the line. The band is the 95 % interval of the day on which the limit is met.",
    x: { label: "days", from: 0, to: 300, step: 50 },
    y: { label: "reading in air, %", from: 19.5, to: 21.5, step: 0.5 },
    curves: [
      { name: "readings", points: READINGS, dots: true },
      {
        name: "robust line",
        points: steps(0, at, 20).map((on) => [on, LIMIT + perDay * (on - at)] as const),
      },
      { name: "limit", points: steps(0, 300, 10).map((on) => [on, LIMIT] as const) },
    ],
    band: { from: Math.max(0, answer.uncertainty.low), to: Math.min(300, answer.uncertainty.high), name: "95 %" },
  };
}

const noFailure: Figure = {
  title: "Chance that a machine does not fail, mean time between failures 1,351 days",
  says: "98 % after 30 days, 87 % after half a year, 76 % after a year.",
  x: { label: "days", from: 0, to: 730, step: 90 },
  y: { label: "percent", from: 0, to: 100, step: 20 },
  curves: [
    {
      name: "exponential",
      points: steps(0, 720, 72).map((days) => {
        const answer = noFailureChance(day(days), day(1351));
        if (!answer.ok) throw new Error(answer.message);
        return [days, answer.value] as const;
      }),
    },
  ],
};

export const OTHER_FIGURES: Readonly<Record<string, Figure>> = {
  vaporizer,
  "vaporizer-methods": vaporizerMethods,
  absorbent,
  "oxygen-cell": cell,
  trend: drift(),
  "no-failure": noFailure,
};
