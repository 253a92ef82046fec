import { litre, type PascalGauge } from "@/lib/units/measure";
import { gaugePressure, gaugePressureIn } from "@/lib/units/pressure";
import { refused } from "./calculated";
import type { Contents, ContentsMethod, ContentsRequest } from "./cylinder-contents";
import { spreadOf, together } from "./cylinder-contents-accuracy";
import { gaugeWithinRange, temperatureWithinRange } from "./cylinder-contents-checks";

type Proportion = Extract<ContentsMethod, { kind: "proportion" }>;
type Factor = Extract<ContentsMethod, { kind: "factor" }>;

/** A filled cylinder in the sun stays well below this share of its rating; above it the reading or the rating is wrong (common practice, no source). */
const PLAUSIBLE_SHARE = 1.5;
/** The proportion against the equation of state, oxygen and air from 100 psi to the rating (computed): up to 6 % high, 1 % low. */
const PROPORTION_HIGH = 0.06;
const PROPORTION_LOW = 0.01;
/** Factors in print against the equation of state at 70 F, 200 psi to full (computed): those of D and E read 14 to 20 % low, those of M and H up to 6 % high. */
const FACTOR_HIGH = 0.06;
const FACTOR_LOW = 0.25;
/** Neither asks for the temperature: gas colder than at the rating is more than they tell, by 0.5 % for each degree (computed). */
const PER_DEGREE = 0.005;
const RATED_AT_C: Record<ContentsRequest["reference"], number> = { "70F-1atm": 21.1, "15C": 15 };

/**
 * Usable litres by the handbook proportion.
 *
 *   litres = rated litres x gauge pressure / rated pressure        (Boyle's law)
 *
 * error     ignores compressibility: up to 6 % high in the middle of the scale for oxygen; ignores temperature: 0.5 % for each degree
 * source    Dorsch and Dorsch, Understanding Anesthesia Equipment (from memory); Morgan and Mikhail (from memory)
 */
export function contentsByProportion(request: ContentsRequest, { rated, ratedPressure }: Proportion): Contents {
  if (!(rated > 0 && ratedPressure.value > 0 && Number.isFinite(ratedPressure.value)))
    return refused(
      "rating-unusable",
      `A rating of ${rated} L at ${ratedPressure.value} ${ratedPressure.unit} cannot be: both are above zero.`,
    );
  const full = gaugePressure(ratedPressure.value, ratedPressure.unit);
  return byRule(request, {
    method: "proportion",
    litresPerPascal: rated / full,
    most: PLAUSIBLE_SHARE * full,
    high: PROPORTION_HIGH,
    low: PROPORTION_LOW,
    because: "proportion up to 6 % high and 1 % low",
    source:
      "Boyle's law from the cylinder's rating: Dorsch and Dorsch, Understanding Anesthesia Equipment (from memory)",
  });
}

/**
 * Usable litres by the tank factor of respiratory care.
 *
 *   litres = factor x gauge pressure in psi
 *
 * error     the factors in print differ: 0.28 L/psi for a US E cylinder reads 14 to 20 % low, 3.14 for an H cylinder up to 6 % high
 * source    cylinder-duration rule of respiratory care: EMS oxygen guidance sheet 2010
 */
export function contentsByFactor(request: ContentsRequest, { litresPerPsi }: Factor): Contents {
  if (!(litresPerPsi > 0 && Number.isFinite(litresPerPsi)))
    return refused(
      "factor-unusable",
      `A factor of ${litresPerPsi} L/psi cannot be: it is above zero (0.28 for a US E cylinder).`,
    );
  return byRule(request, {
    method: "factor",
    litresPerPascal: litresPerPsi / gaugePressure(1, "psi"),
    most: Number.POSITIVE_INFINITY,
    high: FACTOR_HIGH,
    low: FACTOR_LOW,
    because: "factors in print up to 6 % high and 25 % low",
    source: "tank factor of respiratory care: EMS oxygen guidance sheet 2010",
  });
}

interface Rule {
  readonly method: string;
  readonly litresPerPascal: number;
  /** The highest plausible gauge pressure, Pa. */
  readonly most: number;
  /** How far the rule may read high and low, of one. */
  readonly high: number;
  readonly low: number;
  readonly because: string;
  readonly source: string;
}

function byRule(request: ContentsRequest, rule: Rule): Contents {
  if (request.gas === "nitrous-oxide")
    return refused(
      "not-for-nitrous-oxide",
      `The ${rule.method} does not hold for nitrous oxide: while liquid remains its gauge shows the vapor pressure, and after that the contents do not fall in proportion. Ask for the equation of state or weigh the cylinder.`,
    );
  const gauge = gaugeWithinRange(request.pressure);
  if (typeof gauge === "object") return gauge;
  const cold = temperatureWithinRange(request.temperature);
  if (cold) return cold;
  if (gauge > rule.most) return implausible(request, rule);
  const spread = spreadOf(request.pressure, request.accuracy);
  if ("ok" in spread) return spread;
  const value = rule.litresPerPascal * gauge;
  return {
    ok: true,
    value: litre(value),
    method: rule.method,
    uncertainty: uncertaintyOf(request, rule, gauge, spread.pressure, spread.temperature),
    source: rule.source,
  };
}

const implausible = ({ pressure: { value, unit } }: ContentsRequest, { most }: Rule) =>
  refused(
    "pressure-out-of-range",
    `The pressure ${value} ${unit} is above ${Math.round(gaugePressureIn(most as PascalGauge, unit))} ${unit}, ${PLAUSIBLE_SHARE} times the rated pressure: the reading or the rating is wrong.`,
  );

function uncertaintyOf(request: ContentsRequest, rule: Rule, gauge: PascalGauge, pressure: number, kelvins: number) {
  const value = rule.litresPerPascal * gauge;
  const ofGauge = rule.litresPerPascal * pressure;
  const away = request.temperature - RATED_AT_C[request.reference];
  const warm = PER_DEGREE * value * Math.max(0, away + kelvins);
  const cold = PER_DEGREE * value * Math.max(0, kelvins - away);
  const less = together(ofGauge, warm, rule.high * value);
  const more = together(ofGauge, cold, rule.low * value);
  return {
    low: Math.max(0, value - less),
    high: value + more,
    because: `${rule.because}; gauge; temperature, which it does not ask for`,
  };
}
