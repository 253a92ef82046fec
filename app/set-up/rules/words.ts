import { quantityText } from "@/app/_parts/format";
import { settingName, settingSaid } from "@/lib/domain/setting-words";
import type { RuleChangeView, RuleLine } from "@/lib/schemas/rules";

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

/** "stopBelow" is "Stop below". */
export const nameText = (name: string): string => {
  const words = settingName(name);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

export const settingText = (setting: RuleChangeView["setting"]): string => settingSaid(setting);

export const shareText = (share: number): string => `${Math.round(share * 100)}\u00a0%`;
