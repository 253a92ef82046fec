import type { SettingValue } from "@/lib/domain/evidence";
import type { SettingDraft } from "@/lib/domain/rule-change/model";
import { numeral, said } from "@/lib/domain/wording";

/** A value of a setting as a sentence writes it. */
export function valueSaid(value: SettingValue): string {
  if (typeof value === "object") return said(value);
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "number" ? numeral(value) : value;
}

/** "atLeastLitres" as people read it: "at least litres". */
export const settingName = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** "off", "as shipped", "at least 1,200 psi" */
export function settingSaid(setting: SettingDraft | null): string {
  if (setting === null) return "as shipped";
  if (!setting.on) return "off";
  const values = Object.entries(setting.values).map(([name, value]) => `${settingName(name)} ${valueSaid(value)}`);
  return values.length === 0 ? "on, with the shipped values" : values.join(", ");
}
