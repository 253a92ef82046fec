import { closedCylinderPressure } from "@/lib/calculations/closed-cylinder";
import { type ContentsMethod, cylinderContents } from "@/lib/calculations/cylinder-contents";
import type { CylinderGas } from "@/lib/calculations/gases";
import { nitrousOxideByWeight, saturationPressure } from "@/lib/calculations/nitrous-oxide";
import { stateOfFill } from "@/lib/calculations/nitrous-oxide-fill";
import type { Reference } from "@/lib/calculations/reference-conditions";
import { celsius, kilogram, litre } from "@/lib/units/measure";
import { gaugePressureIn, type PressureUnit, pressureIn } from "@/lib/units/pressure";
import { type Plot, type PlotPoint, steps } from "./plot";

const numberOr = <Result extends { ok: boolean; value?: unknown }>(result: Result): number | null =>
  result.ok && typeof result.value === "number" ? result.value : null;

/** Rating and tank factor of a US E cylinder, for the lines beside the one that was asked for; by volume for another size. */
const RATED_AT = { value: 1_900, unit: "psi" } as const;
const FACTOR_OF_E = 0.28;
const CAPACITY_OF_E = 4.8;

export interface ContentsAgainstGauge {
  readonly gas: CylinderGas;
  readonly unit: PressureUnit;
  readonly waterCapacityL: number;
  readonly temperatureC: number;
  readonly reference: Reference;
  readonly rated?: Extract<ContentsMethod, { kind: "proportion" }>;
  readonly litresPerPsi?: number;
  readonly point: PlotPoint | null;
}

/** Usable litres against the gauge by each of the three methods. */
export function contentsAgainstGauge(of: ContentsAgainstGauge): Plot {
  const { gas, unit, reference, point } = of;
  const to = Math.max(pressureIn(2_400, "psi", unit), Math.min((point?.x ?? 0) * 1.05, pressureIn(300, "bar", unit)));
  const xs = steps(0, to, 48);
  const litresAt = (value: number, method: ContentsMethod) =>
    numberOr(
      cylinderContents({
        gas,
        pressure: { value, unit },
        temperature: celsius(of.temperatureC),
        waterCapacity: litre(of.waterCapacityL),
        reference,
        method,
      }),
    );
  const equation = { kind: "equation-of-state" } as const;
  const full = litresAt(pressureIn(RATED_AT.value, RATED_AT.unit, unit), equation) ?? 0;
  const proportion = of.rated ?? { kind: "proportion" as const, rated: litre(full), ratedPressure: RATED_AT };
  const litresPerPsi = of.litresPerPsi ?? (FACTOR_OF_E * of.waterCapacityL) / CAPACITY_OF_E;
  const line = (name: string, style: "first" | "second" | "third", method: ContentsMethod) => ({
    name,
    style,
    ys: xs.map((value) => litresAt(value, method)),
  });
  return {
    title: "Contents against the gauge, by method",
    x: { label: "Gauge pressure", unit },
    y: { label: "Usable contents", unit: "L" },
    xs,
    lines: [
      line("equation of state", "first", equation),
      line("proportion", "second", proportion),
      line("tank factor", "third", { kind: "factor", litresPerPsi }),
    ],
    points: point ? [point] : [],
  };
}

export interface NitrousOxidePressure {
  readonly unit: PressureUnit;
  readonly waterCapacityL: number;
  readonly temperatureC: number;
  readonly reference: Reference;
  readonly point: PlotPoint | null;
}

/** Fuller than any cylinder is filled. */
const FULLEST = 0.75;

/** The plateau while liquid remains, and the fall after it. */
export function nitrousOxidePressure(of: NitrousOxidePressure): Plot {
  const { unit, waterCapacityL, reference, point } = of;
  const litresOf = (kg: number) => numberOr(nitrousOxideByWeight(kilogram(kg), kilogram(0), reference)) ?? 0;
  const weights = [...steps(0.002, 0.16, 24), ...steps(0.18, FULLEST, 24)].map((ratio) => ratio * waterCapacityL);
  const pressureOf = (kg: number) => {
    const fill = stateOfFill(kg / waterCapacityL, celsius(of.temperatureC));
    return fill.ok ? Math.max(0, gaugePressureIn(fill.value.pressure, unit)) : null;
  };
  return {
    title: `Pressure of nitrous oxide against contents at ${of.temperatureC} C`,
    x: { label: "Contents in all", unit: "L" },
    y: { label: "Gauge pressure", unit },
    xs: weights.map(litresOf),
    lines: [{ name: "gauge", style: "first", ys: weights.map(pressureOf) }],
    points: point ? [point] : [],
  };
}

export function saturationAgainstTemperature(unit: PressureUnit, point: PlotPoint | null): Plot {
  const xs = [...steps(-20, 36, 56), 36.3];
  const inUnit = (temperature: number) => {
    const result = saturationPressure(celsius(temperature));
    return result.ok ? gaugePressureIn(result.value, unit) : null;
  };
  return {
    title: "Pressure of nitrous oxide with liquid, against temperature",
    x: { label: "Temperature", unit: "C" },
    y: { label: "Gauge pressure", unit },
    xs,
    lines: [{ name: "with liquid", style: "first", ys: xs.map(inUnit) }],
    points: point ? [point] : [],
  };
}

export interface ClosedCylinder {
  readonly gas: CylinderGas;
  readonly pressure: { readonly value: number; readonly unit: PressureUnit };
  readonly fromC: number;
  readonly points: readonly PlotPoint[];
}

export function closedCylinderAgainstTemperature({ gas, pressure, fromC, points }: ClosedCylinder): Plot {
  const xs = steps(-20, 60, 40);
  const at = (to: number) => {
    const result = closedCylinderPressure({ gas, pressure, from: celsius(fromC), to: celsius(to) });
    return result.ok ? gaugePressureIn(result.value, pressure.unit) : null;
  };
  return {
    title: "The gauge of the closed cylinder against temperature",
    x: { label: "Temperature", unit: "C" },
    y: { label: "Gauge pressure", unit: pressure.unit },
    xs,
    lines: [{ name: "gauge", style: "first", ys: xs.map(at) }],
    points,
  };
}
