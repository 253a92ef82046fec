import type { SettingValue } from "./words";

/** A value as somebody types it. */
export interface TypedValue {
  readonly text: string;
  readonly unit: string;
}

export function startOf(value: SettingValue): TypedValue {
  if (typeof value === "object") return { text: String(value.value), unit: value.unit };
  return { text: typeof value === "boolean" ? (value ? "yes" : "no") : String(value), unit: "" };
}

/** In the kind of the shipped value. What is no number goes as it is, and the server says what would be right. */
export function asValue(shipped: SettingValue, typed: TypedValue | undefined): SettingValue {
  const text = typed?.text.trim() ?? "";
  const number = text === "" ? Number.NaN : Number(text.replace(",", "."));
  if (typeof shipped === "object")
    return Number.isNaN(number) ? text : { value: number, unit: (typed?.unit ?? shipped.unit) as typeof shipped.unit };
  if (typeof shipped === "boolean") return text === "yes";
  return typeof shipped === "number" && !Number.isNaN(number) ? number : text;
}

export const same = (left: SettingValue, right: SettingValue): boolean =>
  typeof left === "object" && typeof right === "object"
    ? left.value === right.value && left.unit === right.unit
    : left === right;
