import { type Day, day, type Hour, type Percent, type PercentHour } from "@/lib/units/measure";
import { type Calculated, type Refused, refused, type Uncertainty } from "./calculated";
import { outOfRange } from "./within";

/** A part of the day at one concentration. */
export interface CellExposure {
  readonly percent: Percent;
  readonly hoursPerDay: Hour;
}

export interface OxygenCell {
  readonly rated: PercentHour;
  readonly use: readonly CellExposure[];
  /** Used up already; none for a new cell. */
  readonly used?: PercentHour;
}

export type OxygenCellRefusal = "out-of-range" | "more-than-a-day" | "no-consumption";

const AIR_PERCENT = 20.9;
const HOURS_IN_A_DAY = 24;
/** Ten in hundredths added as binary fractions may pass 24 by a hair; a minute more is a mistake. */
const A_SECOND = 1 / 3_600;

/**
 * Life of a galvanic oxygen cell by its rating in percent-hours.
 *
 *   days = (rated - used) / sum(percent x hours per day)
 *
 * in        rating (percent x hours), the day as parts at a concentration
 * out       days; 0 when the rating is used up
 * validity  cells whose life is stated in percent-hours at room temperature; a cell also ages by its date, from the day its bag is opened
 * error     hours that are not listed count as no oxygen; the lower end counts them as room air. The rating of a given cell is its
 *           maker's; ratings are typically 500,000 to 1,000,000 (from memory)
 * refuses   more than 24 hours in a day, a percent outside 0 to 100, no use at all
 * not for   paramagnetic and optical sensors, which have no cell to use up
 * source    the definition of the rating
 */
export function oxygenCellLife(cell: OxygenCell): Calculated<Day, OxygenCellRefusal> {
  const wrong = unusable(cell);
  if (wrong) return wrong;
  const perDay = perDayOf(cell.use);
  if (perDay < 1e-6) {
    return refused(
      "no-consumption",
      "The day holds no oxygen for the cell, so it does not run out. List its hours in air too.",
    );
  }
  const left = Math.max(0, cell.rated - (cell.used ?? 0));
  return {
    ok: true,
    value: day(left / perDay),
    method: "percent-hours",
    uncertainty: restInAir(left, perDay, cell.use),
    source: "definition of a rating in percent-hours; typical ratings from memory",
  };
}

function restInAir(left: number, perDay: number, use: readonly CellExposure[]): Uncertainty {
  const rest = Math.max(0, HOURS_IN_A_DAY - hoursOf(use));
  return {
    low: left / (perDay + rest * AIR_PERCENT),
    high: left / perDay,
    because:
      rest > A_SECOND
        ? `the ${Number(rest.toFixed(2))} hours of the day that are not listed may be spent in room air`
        : "the rating is taken as it stands; the cell also ages by its date",
  };
}

const perDayOf = (use: readonly CellExposure[]) =>
  use.reduce((sum, { percent, hoursPerDay }) => sum + percent * hoursPerDay, 0);

const hoursOf = (use: readonly CellExposure[]) => use.reduce((sum, { hoursPerDay }) => sum + hoursPerDay, 0);

function unusable({ rated, use, used }: OxygenCell): Refused<OxygenCellRefusal> | null {
  const outside = outOfRange([
    { name: "The rating", value: rated, unit: "%h", from: 1, to: 1e8 },
    { name: "The percent-hours used", value: used ?? 0, unit: "%h", from: 0, to: 1e9 },
    ...use.flatMap(({ percent, hoursPerDay }, index) => [
      { name: `The percent of part ${index + 1}`, value: percent, unit: "%", from: 0, to: 100 },
      { name: `The hours per day of part ${index + 1}`, value: hoursPerDay, unit: "h", from: 0, to: HOURS_IN_A_DAY },
    ]),
  ]);
  if (outside) return outside;
  const hours = hoursOf(use);
  if (hours <= HOURS_IN_A_DAY + A_SECOND) return null;
  return refused(
    "more-than-a-day",
    `The parts add up to ${Number(hours.toFixed(2))} hours; a day has ${HOURS_IN_A_DAY}.`,
  );
}
