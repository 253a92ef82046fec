import {
  type Celsius,
  celsius,
  type Litre,
  type Minute,
  minute,
  type PascalAbsolute,
  type PascalGauge,
  pascalGauge,
} from "@/lib/units/measure";
import type { PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import { kelvinOf } from "@/lib/units/temperature";
import { type Instant, MINUTE } from "@/lib/units/time";
import { type Calculated, type Refused, refused } from "./calculated";
import type { ContentsAccuracy } from "./cylinder-contents";
import { spreadOf, together } from "./cylinder-contents-accuracy";
import {
  absolute,
  ambientWithinRange,
  capacityUsable,
  gaugeWithinRange,
  temperatureWithinRange,
} from "./cylinder-contents-checks";
import { stateOn } from "./equation-of-state/density";
import { at } from "./equation-of-state/isotherms";
import { type CylinderGas, FLUIDS } from "./gases";
import { liquidRemains } from "./nitrous-oxide-phase";
import { litresPerMol, type Reference } from "./reference-conditions";

export interface GaugeReading {
  readonly pressure: Quantity<PressureUnit>;
  /** Null when nobody knows it. */
  readonly temperature: Celsius | null;
  readonly at: Instant;
}

export interface TwoReadingsRequest {
  readonly gas: CylinderGas;
  readonly waterCapacity: Litre;
  readonly reference: Reference;
  /** Of one cylinder that nothing was to be taken from between the two. */
  readonly first: GaugeReading;
  readonly second: GaugeReading;
  readonly ambient?: PascalAbsolute;
  readonly accuracy?: Partial<Omit<ContentsAccuracy, "waterCapacityPercent">>;
}

/**
 * leak         gas has gone, more than gauge and temperature explain: a leak, or a valve that was left open
 * cold-night   the gauge moved, and the temperature explains it
 * cannot-tell  the gauge moved by no more than it may be off, or the temperatures are unknown, or liquid remains
 * gained       there is more gas than before: another cylinder, a refill, or a wrong reading
 */
export type Verdict = "leak" | "cold-night" | "cannot-tell" | "gained";

export interface TwoReadings {
  readonly verdict: Verdict;
  readonly why: "beyond-both" | "temperature-explains" | "within-gauge" | "temperature-unknown" | "liquid-present";
  readonly elapsed: Minute;
  /** Litres lost at the reference, with both ends; null while liquid remains. Negative where there is more than before. */
  readonly lost: Range | null;
  /** L/h between the two. */
  readonly perHour: Range | null;
}

export interface Range {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export type TwoReadingsRefusal =
  | "pressure-below-zero"
  | "pressure-out-of-range"
  | "temperature-out-of-range"
  | "ambient-out-of-range"
  | "water-capacity-unusable"
  | "accuracy-unusable"
  | "not-in-order";

/** One gauge read twice errs alike both times; what is left is its unsteadiness, half of its class (common practice, no source). */
const UNSTEADY_SHARE = 0.5;
/** Where nobody knows the temperature: the middle of a heated building and an unheated store, and how far from it (common practice, no source). */
const UNKNOWN_C = celsius(20);
const UNKNOWN_K = 15;

/**
 * Two readings of one closed cylinder: did gas escape, or was the night cold?
 *
 *   lost = n(p1, T1) - n(p2, T2), in litres by the equation of state; its error from both gauges and both temperatures, as root of
 *   the sum of squares
 *
 * in        gauge pressure, temperature and time of each; the accuracy of gauge and thermometer
 * out       a verdict; litres lost and litres an hour, each with its two ends (a leak too small to be seen is below the upper end)
 * valid     -20 to 60 C, 0 to 300 bar
 * error     one gauge read twice: half its class of full scale (37.5 psi for class 2.5 and 3,000 psi); temperatures ± 2 K; unknown
 *           ones 20 ± 15 C
 * refuses   readings out of range or out of order
 * not for   nitrous oxide with liquid ("cannot-tell": weigh it); a gauge that was changed in between
 * source    the equation of each gas
 */
export function compareReadings(request: TwoReadingsRequest): Calculated<TwoReadings, TwoReadingsRefusal> {
  const taken = takenFrom(request);
  if ("ok" in taken) return taken;
  const { first, second, elapsed } = taken;
  const fluid = FLUIDS[request.gas];
  const value = litresLost(taken);
  return {
    ok: true,
    value:
      value === null
        ? { verdict: "cannot-tell", why: "liquid-present", elapsed, lost: null, perHour: null }
        : judged(taken, value, first.known && second.known),
    method: "equation of state, both readings at their temperatures",
    uncertainty: null,
    source: fluid.source,
  };
}

interface Taken {
  readonly gauge: PascalGauge;
  readonly temperature: Celsius;
  readonly known: boolean;
  /** K */
  readonly spread: number;
}

interface Both {
  readonly first: Taken;
  readonly second: Taken;
  readonly elapsed: Minute;
  /** Pa that the same gauge may differ from itself. */
  readonly unsteady: number;
  /** Litres that a density in mol/m3 stands for. */
  readonly litresPerDensity: number;
  readonly ambient: PascalAbsolute;
  readonly gas: CylinderGas;
}

function takenFrom(request: TwoReadingsRequest): Both | Refused<TwoReadingsRefusal> {
  const capacity = capacityUsable(request.waterCapacity);
  if (typeof capacity === "object") return capacity;
  const ambient = ambientWithinRange(request.ambient);
  if (typeof ambient === "object") return ambient;
  const spread = spreadOf(request.first.pressure, request.accuracy);
  if ("ok" in spread) return spread;
  const first = takenOne(request.first, "first temperature", spread.temperature);
  if ("ok" in first) return first;
  const second = takenOne(request.second, "second temperature", spread.temperature);
  if ("ok" in second) return second;
  const elapsed = minute((request.second.at - request.first.at) / MINUTE);
  if (elapsed <= 0)
    return refused("not-in-order", "The second reading is not later than the first: give them in the order of time.");
  const litresPerDensity = (capacity / 1_000) * litresPerMol(FLUIDS[request.gas], request.reference);
  return {
    first,
    second,
    elapsed,
    unsteady: UNSTEADY_SHARE * spread.pressure,
    litresPerDensity,
    ambient,
    gas: request.gas,
  };
}

function takenOne(reading: GaugeReading, field: string, spread: number): Taken | Refused<TwoReadingsRefusal> {
  const gauge = gaugeWithinRange(reading.pressure);
  if (typeof gauge === "object") return gauge;
  if (reading.temperature === null) return { gauge, temperature: UNKNOWN_C, known: false, spread: UNKNOWN_K };
  const outside = temperatureWithinRange(reading.temperature, field);
  return outside ?? { gauge, temperature: reading.temperature, known: true, spread };
}

/** Null where liquid remains at either reading. */
function litresLost({ first, second, litresPerDensity, ambient, gas }: Both): number | null {
  const before = densityAt(gas, first, ambient);
  const after = densityAt(gas, second, ambient);
  return before === null || after === null ? null : (before - after) * litresPerDensity;
}

function densityAt(gas: CylinderGas, { gauge, temperature }: Taken, ambient: PascalAbsolute): number | null {
  const kelvin = kelvinOf(temperature);
  const pressure = absolute(gauge, ambient);
  if (liquidRemains(FLUIDS[gas], pressure, kelvin)) return null;
  const state = stateOn(at(FLUIDS[gas], kelvin), pressure);
  return state.phase === "two-phase" ? null : state.density;
}

function judged(both: Both, value: number, known: boolean): TwoReadings {
  const ofGauge = together(movedBy(both, value, "first", "gauge"), movedBy(both, value, "second", "gauge"));
  const ofWarmth = together(
    movedBy(both, value, "first", "temperature"),
    movedBy(both, value, "second", "temperature"),
  );
  const error = together(ofGauge, ofWarmth);
  const lost = { value, low: value - error, high: value + error };
  const hours = both.elapsed / 60;
  const perHour = { value: value / hours, low: lost.low / hours, high: lost.high / hours };
  const moved = Math.abs(both.first.gauge - both.second.gauge) > Math.SQRT2 * both.unsteady;
  return { ...verdictOf(lost, moved, known), elapsed: both.elapsed, lost, perHour };
}

function verdictOf(lost: Range, moved: boolean, known: boolean): Pick<TwoReadings, "verdict" | "why"> {
  if (lost.low > 0) return { verdict: "leak", why: "beyond-both" };
  if (lost.high < 0) return { verdict: "gained", why: "beyond-both" };
  if (!known) return { verdict: "cannot-tell", why: "temperature-unknown" };
  return moved
    ? { verdict: "cold-night", why: "temperature-explains" }
    : { verdict: "cannot-tell", why: "within-gauge" };
}

/** By how many litres the answer moves when one input is off by its accuracy: down in pressure, up in temperature, where no liquid can appear. */
function movedBy(both: Both, value: number, which: "first" | "second", input: "gauge" | "temperature"): number {
  const reading = both[which];
  const moved =
    input === "gauge"
      ? { ...reading, gauge: pascalGauge(reading.gauge + (reading.gauge < both.unsteady ? 1 : -1) * both.unsteady) }
      : { ...reading, temperature: celsius(reading.temperature + reading.spread) };
  return Math.abs((litresLost({ ...both, [which]: moved }) ?? value) - value);
}
