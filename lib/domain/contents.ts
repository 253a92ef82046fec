import type { FittedCylinder } from "@/lib/domain/evidence";
import { type GaugeWorth, gaugeWorth } from "@/lib/domain/gauge-worth";
import type { SettingsPlace } from "@/lib/domain/rule";
import { numeral } from "@/lib/domain/wording";
import type { Quantity } from "@/lib/units/quantity";

/** ", 222 L": what a gauge reading means in litres, or nothing where the gauge cannot tell. */
export function contentsText(reading: Quantity, cylinder: FittedCylinder, place: SettingsPlace): string {
  const worth = gaugeWorth(reading, cylinder, place);
  return worth.kind === "litres" ? `, ${litresText(worth.litres)}` : "";
}

/** "640 L (610 to 670)", "at least 414 L, liquid remains: weigh to know more", or nothing. */
export function worthText(worth: GaugeWorth): string | null {
  if (worth.kind === "unknown") return null;
  if (worth.kind === "at-least")
    return `at least ${litresText(worth.litres)}: liquid remains, only weighing tells more`;
  return `${litresText(worth.litres)} (${whole(Math.max(0, worth.low))} to ${whole(worth.high)})`;
}

const whole = (litres: number): string => numeral(Math.round(litres));
const litresText = (litres: number): string => `${whole(litres)} L`;
