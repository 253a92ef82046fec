import type { z } from "zod";
import * as agent from "@/lib/schemas/calculator/agent";
import * as cylinder from "@/lib/schemas/calculator/cylinder";
import * as safety from "@/lib/schemas/calculator/safety";
import * as sensor from "@/lib/schemas/calculator/sensor";
import { litre } from "@/lib/units/measure";
import type { Outcome } from "./answer";
import {
  closedCylinderAgainstTemperature,
  contentsAgainstGauge,
  nitrousOxidePressure,
  saturationAgainstTemperature,
} from "./gas-plots";
import { absorbentAgainstFlow, noFailureAgainstPeriod, trendOfReadings, vaporizerAgainstFlow } from "./other-plots";
import type { Plot, PlotPoint } from "./plot";

type Drawing = (request: unknown, outcome: Outcome) => Plot | null;

/** The plot that belongs to a request and its answer; null where there is none to draw. */
export function plotFor(name: string, request: unknown, outcome: Outcome): Plot | null {
  return Object.hasOwn(DRAWINGS, name) ? (DRAWINGS[name]?.(request, outcome) ?? null) : null;
}

function drawing<Schema extends z.ZodType>(
  schema: Schema,
  draw: (request: z.output<Schema>, value: number | null, outcome: Outcome) => Plot | null,
): Drawing {
  return (request, outcome) => {
    const parsed = schema.safeParse(request);
    const value = outcome.ok && typeof outcome.value === "number" ? outcome.value : null;
    return parsed.success ? draw(parsed.data, value, outcome) : null;
  };
}

const point = (x: number, y: number | null): PlotPoint | null => (y === null ? null : { name: "this answer", x, y });

const contents = drawing(cylinder.cylinderContents, (request, value) => {
  const { gas, pressure, reference, waterCapacityL = 4.8, temperatureC = 21.1, ratedL, ratedPressure } = request;
  if (gas === "nitrous-oxide")
    return nitrousOxidePressure({
      unit: pressure.unit,
      waterCapacityL,
      temperatureC,
      reference,
      point: value === null ? null : { name: "this answer", x: value, y: pressure.value },
    });
  return contentsAgainstGauge({
    gas,
    unit: pressure.unit,
    waterCapacityL,
    temperatureC,
    reference,
    rated:
      request.method === "proportion" && ratedPressure
        ? { kind: "proportion", rated: litre(ratedL ?? 0), ratedPressure }
        : undefined,
    litresPerPsi: request.method === "factor" ? request.litresPerPsi : undefined,
    point: point(pressure.value, value),
  });
});

const lastLiquid = drawing(cylinder.lastLiquidContents, ({ waterCapacityL, temperatureC, reference }) =>
  nitrousOxidePressure({ unit: "psi", waterCapacityL, temperatureC, reference, point: null }),
);

const fill = drawing(cylinder.nitrousOxideFill, ({ unit, waterCapacityL, temperatureC }) =>
  nitrousOxidePressure({ unit, waterCapacityL, temperatureC, reference: "70F-1atm", point: null }),
);

const closed = drawing(cylinder.closedCylinderPressure, ({ gas, pressure, fromC, toC }, value) =>
  closedCylinderAgainstTemperature({
    gas,
    pressure,
    fromC,
    points: [
      { name: "read", x: fromC, y: pressure.value },
      ...(value === null ? [] : [{ name: "this answer", x: toC, y: value }]),
    ],
  }),
);

const trend = drawing(sensor.trend, ({ readings, limit, method }, _value, outcome) => {
  const crossing =
    outcome.ok && outcome.uncertainty
      ? { day: (outcome.value as { at: number }).at, low: outcome.uncertainty.low, high: outcome.uncertainty.high }
      : null;
  return trendOfReadings({ readings, limit, method, crossing });
});

const DRAWINGS: Readonly<Record<string, Drawing>> = {
  "cylinder-contents": contents,
  "saturation-pressure": drawing(cylinder.saturationPressure, ({ unit, temperatureC }, value) =>
    saturationAgainstTemperature(unit, point(temperatureC, value)),
  ),
  "last-liquid-contents": lastLiquid,
  "nitrous-oxide-fill": fill,
  "closed-cylinder-pressure": closed,
  "vaporizer-use": drawing(agent.vaporizerUse, ({ agent: liquid, concentrationPct, freshGasLPerMin }, value) =>
    value === null ? null : vaporizerAgainstFlow(liquid, concentrationPct, point(freshGasLPerMin, value)),
  ),
  "absorbent-life": drawing(agent.absorbentLife, (request, value, outcome) =>
    outcome.ok ? absorbentAgainstFlow(request, point(request.freshGasLPerMin, value)) : null,
  ),
  trend,
  "no-failure": drawing(safety.noFailureChance, ({ periodDays, mtbfDays }, value) =>
    value === null ? null : noFailureAgainstPeriod(mtbfDays, point(periodDays, value)),
  ),
};
