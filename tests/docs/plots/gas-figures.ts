import { closedCylinderPressure } from "@/lib/calculations/closed-cylinder";
import { type ContentsMethod, cylinderContents } from "@/lib/calculations/cylinder-contents";
import { endurance } from "@/lib/calculations/endurance";
import { NITROUS_OXIDE } from "@/lib/calculations/equation-of-state/nitrous-oxide";
import { saturationPressure } from "@/lib/calculations/nitrous-oxide";
import { stateOfFill } from "@/lib/calculations/nitrous-oxide-fill";
import { litresPerMol } from "@/lib/calculations/reference-conditions";
import { celsius, litre, litrePerMinute } from "@/lib/units/measure";
import { gaugePressureIn } from "@/lib/units/pressure";
import { type Figure, steps } from "./figure";

const US_E = litre(4.8);

const contents = (psi: number, method: ContentsMethod): number => {
  const answer = cylinderContents({
    gas: "oxygen",
    pressure: { value: psi, unit: "psi" },
    temperature: celsius((70 - 32) / 1.8),
    waterCapacity: US_E,
    reference: "70F-1atm",
    method,
  });
  if (!answer.ok) throw new Error(answer.message);
  return answer.value;
};

const byMethod = (method: ContentsMethod) => steps(0, 2200, 44).map((psi) => [psi, contents(psi, method)] as const);

const oxygenContents: Figure = {
  title: "Oxygen in a US E cylinder against its gauge, by method",
  says: "The handbook proportion lies a little above the equation of state in the middle of the scale, the tank factor 0.28 far below it.",
  x: { label: "gauge pressure, psi", from: 0, to: 2200, step: 200 },
  y: { label: "usable litres at 70 F and 1 atm", from: 0, to: 800, step: 100 },
  curves: [
    { name: "equation of state", points: byMethod({ kind: "equation-of-state" }) },
    {
      name: "proportion of 660 L",
      points: byMethod({ kind: "proportion", rated: litre(660), ratedPressure: { value: 1900, unit: "psi" } }),
    },
    { name: "factor 0.28 L/psi", points: byMethod({ kind: "factor", litresPerPsi: 0.28 }) },
  ],
};

const NITROUS_KG_PER_MOL = 44.0128e-3;

function nitrousPressure(litres: number, at: number): number {
  const kilograms = (litres / litresPerMol(NITROUS_OXIDE, "70F-1atm")) * NITROUS_KG_PER_MOL;
  const state = stateOfFill(kilograms / US_E, celsius(at));
  if (!state.ok) throw new Error(state.message);
  return gaugePressureIn(state.value.pressure, "psi");
}

const nitrousOxide: Figure = {
  title: "Pressure of nitrous oxide in a US E cylinder against what it holds",
  says: "The gauge stands still while liquid remains and tells nothing; only below about a quarter of the contents does it fall, earlier in a cold room.",
  x: { label: "litres in the cylinder at 70 F and 1 atm", from: 0, to: 1600, step: 200 },
  y: { label: "gauge pressure, psi", from: 0, to: 1000, step: 200 },
  curves: [10, 20, 30].map((at) => ({
    name: `at ${at} C`,
    points: steps(10, 1590, 158).map((litres) => [litres, nitrousPressure(litres, at)] as const),
  })),
};

const saturation: Figure = {
  title: "Gauge pressure while liquid nitrous oxide remains",
  says: "From 332 psi at -10 C to 1,005 psi at 35 C: the temperature of the cylinder sets the gauge, not the contents.",
  x: { label: "temperature, C", from: -20, to: 40, step: 10 },
  y: { label: "gauge pressure, psi", from: 0, to: 1200, step: 200 },
  curves: [
    {
      name: "saturation",
      points: steps(-20, 36, 56).map((at) => {
        const pressure = saturationPressure(celsius(at));
        if (!pressure.ok) throw new Error(pressure.message);
        return [at, gaugePressureIn(pressure.value, "psi")] as const;
      }),
    },
  ],
};

const closed = (psi: number) =>
  steps(-20, 60, 80).map((to) => {
    const answer = closedCylinderPressure({
      gas: "oxygen",
      pressure: { value: psi, unit: "psi" },
      from: celsius((70 - 32) / 1.8),
      to: celsius(to),
    });
    if (!answer.ok) throw new Error(answer.message);
    return [to, gaugePressureIn(answer.value, "psi")] as const;
  });

const closedCylinder: Figure = {
  title: "The gauge of a closed oxygen cylinder at other temperatures",
  says: "A cylinder that shows 1,900 psi at 70 F shows about 1,800 psi at 10 C without having lost any gas.",
  x: { label: "temperature, C", from: -20, to: 60, step: 10 },
  y: { label: "gauge pressure, psi", from: 0, to: 2500, step: 500 },
  curves: [
    { name: "1,900 psi at 70 F", points: closed(1900) },
    { name: "1,000 psi at 70 F", points: closed(1000) },
  ],
};

function minutes(psi: number, driveGas: number): number {
  const answer = endurance({
    contents: litre(contents(psi, { kind: "equation-of-state" })),
    freshGas: litrePerMinute(2),
    driveGas: litrePerMinute(driveGas),
    residual: litre(contents(200, { kind: "equation-of-state" })),
  });
  if (!answer.ok || !answer.value.onVentilator) throw new Error("no consumption");
  return answer.value.onVentilator.toResidual;
}

const lasting: Figure = {
  title: "Minutes of oxygen in a US E cylinder down to 200 psi, 2 L/min of fresh gas",
  says: "Drive gas, not fresh gas, empties the cylinder: at 1,900 psi some 300 minutes by hand, 50 with a drive that takes 10 L/min.",
  x: { label: "gauge pressure, psi", from: 0, to: 2200, step: 200 },
  y: { label: "minutes", from: 0, to: 350, step: 50 },
  curves: [
    { name: "by hand", points: steps(0, 2200, 44).map((psi) => [psi, minutes(psi, 0)] as const) },
    { name: "drive 5 L/min", points: steps(0, 2200, 44).map((psi) => [psi, minutes(psi, 5)] as const) },
    { name: "drive 10 L/min", points: steps(0, 2200, 44).map((psi) => [psi, minutes(psi, 10)] as const) },
  ],
};

export const GAS_FIGURES: Readonly<Record<string, Figure>> = {
  "oxygen-contents": oxygenContents,
  "nitrous-oxide": nitrousOxide,
  saturation,
  "closed-cylinder": closedCylinder,
  endurance: lasting,
};
