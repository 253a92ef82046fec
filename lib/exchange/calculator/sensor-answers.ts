import { oxygenCellLife } from "@/lib/calculations/oxygen-cell-life";
import { trendCrossing } from "@/lib/calculations/trend";
import * as schemas from "@/lib/schemas/calculator/sensor";
import { day, hour, percent, percentHour } from "@/lib/units/measure";
import { tell } from "./answer";
import { calculation } from "./calculation";

export const oxygenCellAnswer = calculation({
  name: "oxygen-cell-life",
  title: "Life of an oxygen cell",
  group: "sensor",
  about: "Days of a galvanic cell by its rating. A cell also ages by its date.",
  schema: schemas.oxygenCellLife,
  example: {
    ratedPercentHours: 500_000,
    use: [
      { percent: 50, hoursPerDay: 8 },
      { percent: 21, hoursPerDay: 16 },
    ],
  },
  run: ({ ratedPercentHours, use, usedPercentHours }) =>
    tell(
      oxygenCellLife({
        rated: percentHour(ratedPercentHours),
        used: percentHour(usedPercentHours),
        use: use.map((part) => ({ percent: percent(part.percent), hoursPerDay: hour(part.hoursPerDay) })),
      }),
      "days",
    ),
});

export const trendAnswer = calculation({
  name: "trend",
  title: "When a slow change reaches its limit",
  group: "sensor",
  about: "The day on which the line through readings meets the limit. Sudden failures have no trend.",
  schema: schemas.trend,
  example: {
    readings: [
      { at: 0, value: 21.2 },
      { at: 14, value: 20.9 },
      { at: 30, value: 20.7 },
      { at: 45, value: 20.3 },
      { at: 60, value: 20.1 },
      { at: 75, value: 19.8 },
    ],
    limit: 18,
    side: "falls-below",
    method: "robust",
  },
  run: ({ readings, limit, side, method }) =>
    tell(
      trendCrossing({ points: readings.map((one) => ({ at: day(one.at), value: one.value })), limit, side, method }),
      "days",
      { value: ({ at, perDay, passed }) => ({ at, perDay, passed }) },
    ),
});
