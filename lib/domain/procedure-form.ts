import type { Subject } from "@/lib/domain/items";
import type { AnswerForm } from "@/lib/domain/procedure/model";
import type { Place } from "@/lib/domain/rule";
import { cylinderNamed } from "@/lib/domain/rules/gauge";
import { type PressureUnit, pressureIn } from "@/lib/units/pressure";
import { type Quantity, type Unit, valueIn } from "@/lib/units/quantity";

/** How one question is answered here: the site's unit filled in, and what can be typed at all. */
export type ResolvedForm =
  | { readonly kind: "pass"; readonly yes: string; readonly no: string }
  | {
      readonly kind: "number";
      readonly unit: Unit;
      readonly least: number;
      readonly most: number;
      readonly decimals: number;
    }
  | { readonly kind: "gauge"; readonly unit: PressureUnit; readonly most: number }
  | { readonly kind: "choice"; readonly options: readonly { readonly value: string; readonly label: string }[] }
  | { readonly kind: "timed"; readonly seconds: number; readonly what: string };

/** Above this no cylinder gauge on a workstation reads: a third over the highest filling pressure in use, 230 bar. */
const HIGHEST_GAUGE_PSI = 4_500;
/** A filled cylinder in the sun stays well below this share of its rating; above it the reading or the rating is wrong. */
const HIGHEST_SHARE = 1.5;

/** Decimals a gauge can be read to, by unit. */
const DECIMALS: Readonly<Record<PressureUnit, number>> = { psi: 0, kPa: 0, bar: 1, mmHg: 0, cmH2O: 0, inHg: 1 };

export function resolvedForm(form: AnswerForm, subject: Subject, place: Place): ResolvedForm {
  const site = place.facility.pressureUnit;
  if (form.kind === "gauge")
    return {
      kind: "gauge",
      unit: site,
      most: highestGauge(cylinderNamed(subject, place)?.ratedPressure ?? null, site),
    };
  if (form.kind !== "number") return form;
  if (form.unit !== "site-pressure") return { ...form, unit: form.unit };
  return {
    kind: "number",
    unit: site,
    least: roundFigure(pressureIn(form.least, "psi", site)),
    most: roundFigure(pressureIn(form.most, "psi", site)),
    decimals: Math.max(form.decimals, DECIMALS[site]),
  };
}

/** The highest reading that is taken from a gauge: beyond it somebody typed a digit too many. */
function highestGauge(rated: Quantity | null, unit: PressureUnit): number {
  const highest = pressureIn(HIGHEST_GAUGE_PSI, "psi", unit);
  const ofRated = rated === null ? null : valueIn(rated, unit);
  return roundFigure(ofRated === null ? highest : Math.min(highest, ofRated * HIGHEST_SHARE));
}

/** Two significant figures, upwards: a limit of what can be typed need not look exact. */
function roundFigure(value: number): number {
  if (value <= 0) return value;
  const step = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return Math.ceil(value / step - 1e-9) * step;
}
