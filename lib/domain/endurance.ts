import { endurance as enduranceOf } from "@/lib/calculations/endurance";
import type { FittedCylinder, ModelEvidence } from "@/lib/domain/evidence";
import { gaugeWorth } from "@/lib/domain/gauge-worth";
import type { SettingsPlace } from "@/lib/domain/rule";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { Drive } from "@/lib/domain/vocabulary";
import { litre, litrePerMinute } from "@/lib/units/measure";
import { type Quantity, valueIn } from "@/lib/units/quantity";

/** Whole minutes until the residual pressure, at the site's flows. */
export interface ReserveMinutes {
  readonly byHand: number;
  /** The same as by hand where the drive takes no oxygen. */
  readonly onVentilator: number;
}

/** A gas-driven bellows lives on its drive gas; a piston or a turbine takes none. */
const GAS_DRIVEN: readonly Drive[] = ["ascending-bellows", "descending-bellows"];

/** What the ventilator takes from the oxygen reserve, L/min. */
export function driveFlow(model: Pick<ModelEvidence, "drive" | "driveGas">, place: SettingsPlace): number {
  if (model.driveGas !== "oxygen" || !GAS_DRIVEN.includes(model.drive)) return 0;
  return valueIn(valuesOf(endurance, place).driveGasFlow, "L/min") ?? 0;
}

/**
 * Minutes of oxygen in this cylinder by hand and on the ventilator; null where the gauge cannot tell.
 * From the low end of the contents and rounded down: a minute that is not there must not be promised.
 */
export function reserveMinutes(
  reading: Quantity,
  cylinder: FittedCylinder,
  place: SettingsPlace,
  model: Pick<ModelEvidence, "drive" | "driveGas"> | null,
): ReserveMinutes | null {
  const { byHandFlow, residual } = valuesOf(endurance, place);
  const worth = gaugeWorth(reading, cylinder, place);
  const stays = gaugeWorth(residual, cylinder, place);
  const freshGas = valueIn(byHandFlow, "L/min");
  if (cylinder.gas !== "oxygen" || worth.kind !== "litres" || stays.kind !== "litres" || freshGas === null) return null;
  const lasts = enduranceOf({
    contents: litre(Math.max(0, worth.low)),
    freshGas: litrePerMinute(freshGas),
    driveGas: litrePerMinute(model ? driveFlow(model, place) : 0),
    residual: litre(stays.litres),
  });
  if (!lasts.ok || lasts.value.byHand === null || lasts.value.onVentilator === null) return null;
  return {
    byHand: Math.floor(lasts.value.byHand.toResidual),
    onVentilator: Math.floor(lasts.value.onVentilator.toResidual),
  };
}
