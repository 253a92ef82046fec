import { z } from "zod";
import { LIMIT_SIDES, TREND_METHODS } from "@/lib/calculations/trend";
import { number, oneOf } from "./inputs";

export const oxygenCellLife = z.strictObject({
  ratedPercentHours: number({ title: "Rating", unit: "%h", description: "Rated life of the cell in percent-hours" }),
  use: z
    .array(
      z.strictObject({
        percent: number({ title: "Oxygen", unit: "%", description: "Concentration in percent" }),
        hoursPerDay: number({ title: "Hours a day", unit: "h", description: "Hours of the day at it" }),
      }),
    )
    .min(1)
    .max(24)
    .meta({ title: "Use", description: "The day in parts, each at one concentration; at most 24 hours in all" }),
  usedPercentHours: number({
    title: "Used already",
    unit: "%h",
    description: "Percent-hours used already; 0 if absent",
  }).default(0),
});

export const trend = z.strictObject({
  readings: z
    .array(
      z.strictObject({
        at: number({ title: "Day", description: "When, in days from any beginning" }),
        value: number({ title: "Value", description: "What was read, in the unit of the limit" }),
      }),
    )
    .max(1_000)
    .meta({ title: "Readings", description: "At five different times or more" }),
  limit: number({ title: "Limit", description: "The limit, in the unit of the readings" }),
  side: oneOf(LIMIT_SIDES, { title: "Out of order when it", description: "Which side of the limit is out of order" }),
  method: oneOf(TREND_METHODS, {
    title: "Method",
    description: "robust (Theil-Sen) if absent; or least-squares",
  }).default("robust"),
});
