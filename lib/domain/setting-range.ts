import type { SettingValue } from "@/lib/domain/evidence";
import type { Policy, Setting } from "@/lib/domain/rule";
import { RESERVE_WORDS } from "@/lib/domain/rules/reserve-oxygen/reserve-amount";
import type { Scheme } from "@/lib/domain/vocabulary";
import { numeral, said } from "@/lib/domain/wording";
import { type Quantity, quantity, UNITS, type Unit, valueIn } from "@/lib/units/quantity";

/**
 * Which values a setting may have: of the kind the rule ships, in a unit that measures the same thing, and not further than ten times
 * from the shipped value, which is where slips of a digit or of a unit lie. Source: common practice, no source.
 */
const FURTHEST = 10;

export interface SettingProblem {
  readonly name: string;
  readonly message: string;
}

/** The first thing wrong with a rule's values; null when nothing is. */
export function settingProblem(
  policy: Policy,
  values: Readonly<Record<string, SettingValue>>,
  scheme: Scheme,
): SettingProblem | null {
  for (const [name, value] of Object.entries(values)) {
    const setting = Object.hasOwn(policy.settings, name) ? policy.settings[name] : undefined;
    if (!setting) {
      const names = Object.keys(policy.settings);
      return {
        name,
        message:
          names.length === 0
            ? "This rule has no values; it can only be switched off."
            : `"${name}" is not a value of this rule; it has ${names.join(", ")}.`,
      };
    }
    const message = wrongValue(policy.id, name, value, shippedIn(setting, scheme), unitsOfSetting(setting));
    if (message !== null) return { name, message };
  }
  return outOfOrder(policy, values, scheme);
}

export const shippedIn = (setting: Setting, scheme: Scheme): SettingValue =>
  scheme === "ISO" && setting.iso ? setting.iso.default : setting.default;

/** The units a value may be given in: those that measure what the shipped value of either scheme measures. */
export function unitsOfSetting({ default: shipped, iso }: Setting): readonly Unit[] {
  const like = [shipped, iso?.default].flatMap((value) =>
    typeof value === "object" ? UNITS.filter((unit) => valueIn(quantity(1, unit), value.unit) !== null) : [],
  );
  return [...new Set(like)];
}

function wrongValue(
  id: string,
  name: string,
  value: SettingValue,
  shipped: SettingValue,
  units: readonly Unit[],
): string | null {
  if (typeof shipped === "object") {
    if (typeof value !== "object") return `Give a value with its unit, such as ${said(shipped)}.`;
    if (!units.includes(value.unit))
      return `${said(value)} is in a unit that does not measure this; give it in ${units.join(", ")}.`;
    return outOfRange(value, shipped);
  }
  if (typeof value !== typeof shipped)
    return `Give ${KINDS[typeof shipped] ?? "another kind of value"}, as the shipped ${String(shipped)}.`;
  if (typeof value === "number" && typeof shipped === "number") return wrongNumber(value, shipped);
  return typeof value === "string" && typeof shipped === "string" ? wrongWord(id, name, value, shipped) : null;
}

const KINDS: Readonly<Record<string, string>> = {
  number: "a number without a unit",
  boolean: "yes or no",
  string: "a word",
};

/** Where a value can lie at all, whatever was shipped. */
const BOUNDS: Partial<Record<Unit, readonly [least: number, most: number]>> = { "%": [0, 100], C: [-20, 60] };

function outOfRange(value: Quantity, shipped: Quantity): string | null {
  const [least, most] = rangeOf(value.unit, shipped);
  return value.value >= least && value.value <= most
    ? null
    : `${said(value)} is too far from the shipped ${said(shipped)}; give from ${numeral(least)} to ${said(quantity(most, value.unit))}.`;
}

/** From where to where, in the unit that somebody chose. */
export function rangeOf(unit: Unit, shipped: Quantity): readonly [least: number, most: number] {
  const bounds = BOUNDS[unit];
  const here = valueIn(shipped, unit);
  // A pressure may stand for a share of the rated one and the other way round; then only the unit's own bounds hold.
  if (here === null || unit === "C") return bounds ?? [0, 1_000_000];
  if (here === 0) return [0, bounds?.[1] ?? 1_000];
  return [round(here / FURTHEST), Math.min(round(here * FURTHEST), bounds?.[1] ?? Number.POSITIVE_INFINITY)];
}

const round = (value: number): number => Number(value.toPrecision(3));

/** A share is between nothing and all of it; anything else is a count. */
function wrongNumber(value: number, shipped: number): string | null {
  if (shipped <= 1)
    return value >= 0 && value <= 1
      ? null
      : `${numeral(value)} is not a share; give from 0 to 1, such as ${numeral(shipped)}.`;
  const most = shipped * FURTHEST;
  return Number.isInteger(value) && value >= 1 && value <= most
    ? null
    : `${numeral(value)} does not do; give a whole number from 1 to ${most}.`;
}

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;

function wrongWord(id: string, name: string, value: string, shipped: string): string | null {
  if (TIME.test(shipped))
    return TIME.test(value) ? null : `"${value}" is not a time of day; give one such as ${shipped}.`;
  const words = wordsOfSetting(id, name) ?? [shipped];
  return words.includes(value) ? null : `"${value}" is not known here; give one of ${words.join(", ")}.`;
}

/** The words one setting may have; null where it is not a choice of words. */
export const wordsOfSetting = (id: string, name: string): readonly string[] | null =>
  id === "reserve-oxygen-low" && name === "judgeBy" ? RESERVE_WORDS : null;

/** Bands of a pressure keep their order: what stops lies outside of what is only noticed. */
function outOfOrder(
  { settings }: Policy,
  values: Readonly<Record<string, SettingValue>>,
  scheme: Scheme,
): SettingProblem | null {
  const bands = Object.entries(settings).flatMap(([name, setting]) => {
    const shipped = shippedIn(setting, scheme);
    const value = values[name] ?? shipped;
    return isPressure(shipped) && typeof value === "object" ? [{ name, shipped, value }] : [];
  });
  for (const [place, { name, value, shipped }] of bands.entries()) {
    const before = bands[place - 1];
    if (before === undefined || below(shipped, before.shipped)) continue;
    if (below(value, before.value)) {
      const changed = values[name] === undefined ? before : { name, value };
      const other = values[name] === undefined ? { name, value } : before;
      return {
        name: changed.name,
        message: `${said(changed.value)} would change places with ${spaced(other.name)} at ${said(other.value)}. Keep the bands in their order.`,
      };
    }
  }
  return null;
}

const isPressure = (value: SettingValue): value is Quantity =>
  typeof value === "object" && valueIn(value, "kPa") !== null;
const below = (left: Quantity, right: Quantity): boolean =>
  left.value < (valueIn(right, left.unit) ?? Number.NEGATIVE_INFINITY);

/** "stopBelow" as people read it. */
const spaced = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
