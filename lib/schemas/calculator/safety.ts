import { z } from "zod";
import { CONDITION_CHOICES, ELECTRICAL_STANDARDS, ELECTRICAL_TESTS } from "@/lib/calculations/electrical-limits";
import { READING_UNITS } from "@/lib/calculations/electrical-safety";
import { FUNCTION_POINTS, MAINTENANCE_POINTS, RISK_POINTS } from "@/lib/calculations/risk-score";
import { amount, number, whole } from "./inputs";

const points = <Category extends string>(table: Readonly<Record<Category, number>>, title: string, range: string) =>
  z
    .union([z.number().min(-1e9).max(1e9), z.enum(Object.keys(table) as [Category, ...Category[]])], {
      error: `must be points, ${range}, or one of: ${Object.keys(table).join(", ")}`,
    })
    .optional()
    .meta({ title, unit: "points", description: `${title} in points, ${range}, or by the name of its category` });

export const riskScore = z.strictObject({
  function: points(FUNCTION_POINTS, "Function", "2 to 10"),
  risk: points(RISK_POINTS, "Risk", "1 to 5"),
  maintenance: points(MAINTENANCE_POINTS, "Maintenance", "1 to 5"),
  includeFrom: number({
    title: "Include from",
    unit: "points",
    description: "Score from which a device is in the program; 12 if absent",
  }).default(12),
});

/** As people write them: the micro sign, capitals, spaces. Milli and mega stay apart. */
const spelled = (given: unknown) =>
  typeof given === "string"
    ? given
        .trim()
        .replace(/[µμ]/, "u")
        .replace(/Ω/, "ohm")
        .replace(/(?<=^[mMk]?)O(?=hm)/, "o")
        .replace(/^kohms?$|ohms$/, (end) => end.replace("ohms", "ohm"))
    : given;
const named = (given: unknown) =>
  typeof given === "string"
    ? given
        .trim()
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, "-")
    : given;

export const electricalSafety = z.strictObject({
  standard: z
    .preprocess(named, z.enum(ELECTRICAL_STANDARDS))
    .meta({ title: "Standard", description: "Standard with its edition; limits of editions are never mixed" }),
  test: z.preprocess(named, z.enum(ELECTRICAL_TESTS)).meta({ title: "Test", description: "What was measured" }),
  value: z
    .number()
    .min(-1e12)
    .max(1e12)
    .meta({ title: "Reading", description: "What the meter showed, in the unit beside it" }),
  unit: z.preprocess(spelled, z.enum(READING_UNITS)).meta({
    title: "Unit",
    description: "uA, mA, A for currents; mohm (thousandth), ohm, kohm, Mohm (million) for resistances",
  }),
  conditions: z
    .union([z.string().max(500), z.array(z.string().max(100)).max(20), conditionsObject()], {
      error: 'must be {"ground": "intact"}, a list of words such as ["ground intact"], or one text',
    })
    .meta({
      title: "Conditions",
      description: "What the limit depends on, as an object, or in words; none if absent",
    })
    .default({}),
});

function conditionsObject() {
  const { ground, leads, measured, method, class: protection, appliedPart } = CONDITION_CHOICES;
  return z.strictObject({
    ground: z.enum(ground).optional(),
    leads: z.enum(leads).optional(),
    measured: z.enum(measured).optional(),
    method: z.enum(method).optional(),
    class: z.enum(protection).optional(),
    appliedPart: z.enum(appliedPart).optional(),
  });
}

const mtbfDays = number({
  title: "Mean time between failures",
  unit: "days",
  description: "Mean time between failures in days",
});

export const meanTimeBetweenFailures = z.strictObject({
  operatingDays: number({
    title: "Operating time",
    unit: "days",
    description: "Operating time of all devices together in days",
  }),
  failures: number({ title: "Failures", unit: "failures", description: "Failures in that time" }),
});

export const expectedFailures = z.strictObject({
  operatingDays: number({ title: "Operating time", unit: "days", description: "Operating time in days" }),
  mtbfDays,
});

export const noFailureChance = z.strictObject({
  periodDays: number({ title: "Period", unit: "days", description: "Period in days" }),
  mtbfDays,
});

export const availability = z.strictObject({
  mtbfDays,
  repairHours: amount({ title: "Mean time to repair", unit: "h", description: "Mean time to repair in hours" }),
});

export const completion = z.strictObject({
  done: whole({ title: "Done in time", unit: "items", description: "What was done in time" }),
  due: whole({ title: "Due", unit: "items", description: "What was due" }),
});
