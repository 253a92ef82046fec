import { closedCylinderPressure } from "@/lib/calculations/closed-cylinder";
import { type ContentsMethod, cylinderContents } from "@/lib/calculations/cylinder-contents";
import { cylinderSize } from "@/lib/calculations/cylinder-sizes";
import { lastLiquidContents, nitrousOxideByWeight, saturationPressure } from "@/lib/calculations/nitrous-oxide";
import { stateOfFill } from "@/lib/calculations/nitrous-oxide-fill";
import { retestDue } from "@/lib/calculations/retest-date";
import { compareReadings } from "@/lib/calculations/two-readings";
import * as schemas from "@/lib/schemas/calculator/cylinder";
import { celsius, kilogram, litre, pascalGauge } from "@/lib/units/measure";
import { gaugePressureIn } from "@/lib/units/pressure";
import { instantOf, localDate } from "@/lib/units/time";
import { notTold, tell } from "./answer";
import { calculation } from "./calculation";

/** Where the rule does not ask for the temperature, that of the rating is meant. */
const RATED_AT_C = { "70F-1atm": (70 - 32) / 1.8, "15C": 15 } as const;

export const cylinderContentsAnswer = calculation({
  name: "cylinder-contents",
  title: "Cylinder contents",
  group: "gas",
  about: "Usable litres from the gauge. Not for deciding alone whether a workstation is ready.",
  schema: schemas.cylinderContents,
  example: {
    gas: "oxygen",
    waterCapacityL: 4.8,
    pressure: { value: 1900, unit: "psi" },
    temperatureC: 21.1,
    reference: "70F-1atm",
    method: "equation-of-state",
  },
  run: (request) =>
    tell(
      cylinderContents({
        ...request,
        temperature: celsius(request.temperatureC ?? RATED_AT_C[request.reference]),
        waterCapacity: request.waterCapacityL === undefined ? undefined : litre(request.waterCapacityL),
        method: methodOf(request),
      }),
      "L",
    ),
});

function methodOf(request: (typeof schemas.cylinderContents)["_zod"]["output"]): ContentsMethod {
  const { method, ratedL = 0, ratedPressure, litresPerPsi = 0 } = request;
  if (method === "factor") return { kind: method, litresPerPsi };
  if (method === "proportion" && ratedPressure) return { kind: method, rated: litre(ratedL), ratedPressure };
  return { kind: "equation-of-state" };
}

export const nitrousOxideByWeightAnswer = calculation({
  name: "nitrous-oxide-by-weight",
  title: "Nitrous oxide by weight",
  group: "gas",
  about: "Litres of nitrous oxide from gross and tare: the only way while liquid remains.",
  schema: schemas.nitrousOxideByWeight,
  example: { grossKg: 9.3, tareKg: 6.4, reference: "70F-1atm" },
  run: ({ grossKg, tareKg, reference, scaleKg }) =>
    tell(
      nitrousOxideByWeight(
        kilogram(grossKg),
        kilogram(tareKg),
        reference,
        scaleKg === undefined ? undefined : kilogram(scaleKg),
      ),
      "L",
    ),
});

export const saturationPressureAnswer = calculation({
  name: "saturation-pressure",
  title: "Pressure of nitrous oxide with liquid",
  group: "gas",
  about: "What the gauge shows while liquid nitrous oxide remains, whatever the contents.",
  schema: schemas.saturationPressure,
  example: { gas: "nitrous-oxide", temperatureC: 20, unit: "psi" },
  run: ({ temperatureC, unit }) =>
    tell(saturationPressure(celsius(temperatureC)), unit, {
      scale: (pascals) => gaugePressureIn(pascalGauge(pascals), unit),
    }),
});

export const lastLiquidAnswer = calculation({
  name: "last-liquid-contents",
  title: "Nitrous oxide when the last liquid goes",
  group: "gas",
  about: "What the cylinder holds when its gauge begins to fall: the least it holds before.",
  schema: schemas.lastLiquidContents,
  example: { gas: "nitrous-oxide", waterCapacityL: 4.8, temperatureC: 20, reference: "70F-1atm" },
  run: ({ waterCapacityL, temperatureC, reference }) => {
    const result = lastLiquidContents(litre(waterCapacityL), celsius(temperatureC), reference);
    const more = result.ok ? { usableL: result.value.usable } : {};
    return tell(result, "L", { value: ({ total }) => total, more });
  },
});

export const nitrousOxideFillAnswer = calculation({
  name: "nitrous-oxide-fill",
  title: "Nitrous oxide of a known weight at a temperature",
  group: "gas",
  about: "Pressure and share of liquid of a known filling. Not for deciding that a warm cylinder is safe.",
  schema: schemas.nitrousOxideFill,
  example: { netKg: 2.9, waterCapacityL: 4.8, temperatureC: 20, unit: "psi" },
  run: ({ netKg, waterCapacityL, temperatureC, unit }) => {
    const inUnit = (pascals: number) => gaugePressureIn(pascalGauge(pascals), unit);
    return tell(stateOfFill(netKg / waterCapacityL, celsius(temperatureC)), unit, {
      scale: inUnit,
      because: "of the pressure: equation ± 0.2 % in vapor pressure, ± 0.1 % in density",
      value: ({ pressure, ...fill }) => ({ pressure: inUnit(pressure), ...fill }),
    });
  },
});

export const closedCylinderAnswer = calculation({
  name: "closed-cylinder-pressure",
  title: "The gauge of a closed cylinder at another temperature",
  group: "gas",
  about: "What the same cylinder shows warmer or colder, if nothing escapes.",
  schema: schemas.closedCylinderPressure,
  example: { gas: "oxygen", pressure: { value: 2000, unit: "psi" }, fromC: 20, toC: 5 },
  run: ({ gas, pressure, fromC, toC }) => {
    const inUnit = (pascals: number) => gaugePressureIn(pascalGauge(pascals), pressure.unit);
    const result = closedCylinderPressure({ gas, pressure, from: celsius(fromC), to: celsius(toC) });
    if (result.ok || result.atLeastPa === undefined) return tell(result, pressure.unit, { scale: inUnit });
    return notTold(result.refusal, result.message, {
      atLeast: { value: inUnit(result.atLeastPa), unit: pressure.unit },
    });
  },
});

export const twoReadingsAnswer = calculation({
  name: "two-readings",
  title: "Two readings: leak, or a cold night?",
  group: "gas",
  about: "Whether gas escaped between two readings of one closed cylinder, or the temperature explains it.",
  schema: schemas.twoReadings,
  example: {
    gas: "oxygen",
    waterCapacityL: 4.8,
    first: { pressure: { value: 1900, unit: "psi" }, temperatureC: 21, at: "2026-11-24T18:00:00Z" },
    second: { pressure: { value: 1650, unit: "psi" }, temperatureC: 20, at: "2026-11-25T06:00:00Z" },
  },
  run: ({ gas, waterCapacityL, reference, first, second }) => {
    const read = ({ pressure, temperatureC, at }: typeof first) => ({
      pressure,
      temperature: temperatureC === null || temperatureC === undefined ? null : celsius(temperatureC),
      at: instantOf(at),
    });
    const result = compareReadings({
      gas,
      waterCapacity: litre(waterCapacityL),
      reference,
      first: read(first),
      second: read(second),
    });
    return tell(result, null, {
      value: ({ verdict, why, elapsed, lost, perHour }) => ({
        verdict,
        why,
        elapsedMin: elapsed,
        lostL: lost,
        lostLPerHour: perHour,
      }),
    });
  },
});

export const cylinderSizeAnswer = calculation({
  name: "cylinder-size",
  title: "Cylinder size by scheme and letter",
  group: "gas",
  about: "Water capacity and handbook ratings of a size. One letter means different cylinders in the US and the UK.",
  schema: schemas.cylinderSize,
  example: { scheme: "US", letter: "E" },
  run: ({ scheme, letter }) => {
    const size = cylinderSize(scheme, letter);
    if (!size) return notTold("unknown-size", `The scheme ${scheme} has no size "${letter}" here.`);
    const { waterCapacity, waterCapacityMark, reference, ratings, source, mark } = size;
    return tell(
      { ok: true, value: size, method: "table of sizes", uncertainty: null, source: `${source} (${mark})` },
      null,
      {
        value: () => ({ waterCapacityL: waterCapacity, waterCapacityFrom: waterCapacityMark, reference, ratings }),
      },
    );
  },
});

export const retestDueAnswer = calculation({
  name: "retest-due",
  title: "Next test of a cylinder",
  group: "dates",
  about: "The month in which a US cylinder's next test falls due. A note for the supplier, no stop.",
  schema: schemas.retestDue,
  example: { stamp: "03-22", specification: "3AL", star: false, seenOn: "2026-11-25" },
  run: (request) => tell(retestDue({ ...request, seenOn: localDate(request.seenOn) }), null),
});
