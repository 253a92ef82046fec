import {
  type Gram,
  type Hour,
  hour,
  type Litre,
  type LitrePer100Gram,
  type LitrePerMinute,
  type MillilitrePerMinute,
  millilitrePerMinute,
} from "@/lib/units/measure";
import { type Computed, type Refused, refused, type Uncertainty } from "./calculated";
import { outOfRange } from "./within";

export interface AbsorbentUse {
  readonly mass: Gram;
  readonly capacity: LitrePer100Gram;
  /** Carbon dioxide the patient makes. */
  readonly co2: MillilitrePerMinute;
  readonly freshGas: LitrePerMinute;
  readonly minuteVentilation: LitrePerMinute;
  /** Carbon dioxide taken up already; none for a fresh charge. */
  readonly absorbed?: Litre;
}

/** Fresh gas washes all carbon dioxide out, or none is made: no charge is ever spent by it. */
export const NOT_LIMITED = "not-limited";

export type AbsorbentLife = Computed<Hour | typeof NOT_LIMITED> & {
  /** Carbon dioxide that reaches the absorbent. */
  readonly load: MillilitrePerMinute;
  /** What the number does not tell. */
  readonly remark: string;
};

export type AbsorbentRefusal = "out-of-range" | "no-ventilation";

/** Practical uptake of soda lime, L per 100 g: teaching texts 10 to 15; 12 or more measured by Jorgensen 1977, doi 10.1111/j.1399-6576.1977.tb01244.x. */
const PRACTICAL_LOW = 10;
const PRACTICAL_HIGH = 15;
/** Pure lithium hydroxide could bind 50 L/100 g, pure calcium hydroxide 32 (stoichiometry, 20 C); more is a wrong unit. */
const HIGHEST_CAPACITY = 51;

const SOURCE =
  "Model and its boundaries: Feldman, Lo, Hendrickx 2020 (abstract); practical capacity 10 to 15 L/100 g: teaching texts, Jorgensen 1977";
const OTHER_REASONS =
  "Colour, inspired carbon dioxide, age, and gas left flowing or a long rest (drying) still decide when to change it.";

/**
 * How long a charge of absorbent lasts.
 *
 *   load = VCO2 x (1 - F/VE)          hours = (mass/100 x capacity - absorbed) x 1000 / load / 60
 *
 * in        mass (g), capacity (L of carbon dioxide per 100 g), VCO2 (mL/min), fresh gas F and minute ventilation VE (L/min),
 *           litres absorbed already (optional)
 * out       hours; "not-limited" when no carbon dioxide reaches the absorbent (F at or above VE, or none made)
 * validity  linear in fresh gas between the closed circuit and the minute ventilation. Measured use is linear from 0.2 to 2 L/min and
 *           not above (J Clin Monit Comput 2018, doi 10.1007/s10877-017-0088-x)
 * error     the capacity: 10 to 15 L/100 g in practice, by product, canister and the inspired carbon dioxide that is let through
 * refuses   a mass, capacity or flow that cannot be; no minute ventilation
 * not for   deciding that a canister is good: colour and inspired carbon dioxide decide, and dryness does not show here
 * source    Feldman, Lo, Hendrickx 2020 (abstract), model boundaries; the linear form between them is computed
 */
export function absorbentLife(use: AbsorbentUse): AbsorbentLife | Refused<AbsorbentRefusal> {
  return unusable(use) ?? lifeOf(use);
}

function lifeOf(use: AbsorbentUse): AbsorbentLife {
  const { capacity, co2, freshGas, minuteVentilation } = use;
  const load = millilitrePerMinute(co2 * Math.max(0, 1 - freshGas / minuteVentilation));
  const shared = { ok: true, method: "carbon dioxide load over capacity", source: SOURCE, load } as const;
  if (load < 1e-9) {
    const why = co2 < 1e-9 ? "No carbon dioxide is made." : "Fresh gas reaches the minute ventilation.";
    return { ...shared, value: NOT_LIMITED, uncertainty: null, remark: `${why} ${OTHER_REASONS}` };
  }
  const hours = (perHundred: number) => hoursAt(use, perHundred, load);
  return { ...shared, value: hour(hours(capacity)), uncertainty: spread(hours, capacity), remark: OTHER_REASONS };
}

function hoursAt({ mass, absorbed }: AbsorbentUse, capacity: number, load: number): number {
  const left = Math.max(0, (mass / 100) * capacity - (absorbed ?? 0));
  return (left * 1_000) / load / 60;
}

function spread(hours: (capacity: number) => number, capacity: number): Uncertainty {
  return {
    low: hours(Math.min(PRACTICAL_LOW, capacity)),
    high: hours(Math.max(PRACTICAL_HIGH, capacity)),
    because: `soda lime takes up ${PRACTICAL_LOW} to ${PRACTICAL_HIGH} L/100 g in practice`,
  };
}

function unusable(use: AbsorbentUse): Refused<AbsorbentRefusal> | null {
  const outside = outOfRange([
    { name: "The mass", value: use.mass, unit: "g", from: 0, to: 20_000 },
    { name: "The capacity", value: use.capacity, unit: "L/100 g", from: 0, to: HIGHEST_CAPACITY },
    { name: "The carbon dioxide", value: use.co2, unit: "mL/min", from: 0, to: 5_000 },
    { name: "The fresh gas flow", value: use.freshGas, unit: "L/min", from: 0, to: 100 },
    { name: "The minute ventilation", value: use.minuteVentilation, unit: "L/min", from: 0, to: 100 },
    { name: "The carbon dioxide absorbed", value: use.absorbed ?? 0, unit: "L", from: 0, to: 20_000 },
  ]);
  if (outside) return outside;
  if (use.minuteVentilation >= 0.001) return null;
  return refused(
    "no-ventilation",
    "The minute ventilation is 0 L/min; give the ventilation that the absorbent is to serve.",
  );
}
