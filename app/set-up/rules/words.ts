import { quantityText } from "@/app/_parts/format";
import { settingName, settingSaid } from "@/lib/domain/setting-words";
import type { RuleChangeView, RuleLine } from "@/lib/schemas/rules";
import { type Unit, valueIn } from "@/lib/units/quantity";

export type SettingValue = RuleLine["values"][number]["present"];

export const SEVERITY_WORDS: Record<NonNullable<RuleLine["severity"]>, string> = {
  out: "out of service",
  stops: "stops",
  owed: "to check",
  limits: "limits",
  due: "work due",
  note: "note",
};

export function valueText(value: SettingValue): string {
  if (typeof value === "object") return quantityText(value);
  return typeof value === "boolean" ? (value ? "yes" : "no") : String(value);
}

const GAUGE_UNITS: readonly string[] = ["psi", "kPa", "bar"];

/** A gauge pressure also in the unit on this site's gauges: "69 bar, set as 1,000 psi". */
export function siteValueText(value: SettingValue, siteUnit: Unit): string {
  if (typeof value !== "object" || value.unit === siteUnit || !GAUGE_UNITS.includes(value.unit))
    return valueText(value);
  const here = valueIn(value, siteUnit);
  return here === null
    ? valueText(value)
    : `${quantityText({ value: here, unit: siteUnit })}, set as ${valueText(value)}`;
}

/** "stopBelow" is "Stop below". */
export const nameText = (name: string): string => {
  const words = settingName(name);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

export const settingText = (setting: RuleChangeView["setting"]): string => settingSaid(setting);

export const shareText = (share: number): string => `${Math.round(share * 100)}\u00a0%`;
