import type { SettingOverride, SettingOverrides, SettingValue } from "@/lib/domain/evidence";
import type { Policy, Setting, Settings, SettingsPlace, SettingValues } from "@/lib/domain/rule";
import type { Scheme } from "@/lib/domain/vocabulary";
import { valueIn } from "@/lib/units/quantity";

/** What a rule runs on at this site: the site's own values over the shipped ones, and the citation that stands for them. */
export interface Resolved {
  readonly on: boolean;
  readonly values: SettingValues<Settings>;
  readonly citation: string | null;
  /** The site version of this rule's settings; 0 is the shipped default. */
  readonly version: number;
}

/** Shipped defaults never change while the process runs, and most sites change few of them. */
const shipped: Readonly<Record<Scheme, Map<Policy, Resolved>>> = { US: new Map(), ISO: new Map() };

/** Shipped, over it the site's own, over that the procedure's, and nearest to the machine the model's. */
export function resolved(policy: Policy, place: SettingsPlace): Resolved {
  const defaults = shippedOf(policy, place.facility.scheme);
  // Asked for every answer of every room, and most sites change few settings.
  return isOverridden(policy, place) ? layered(policy, defaults, place) : defaults;
}

function layered(policy: Policy, defaults: Resolved, place: SettingsPlace): Resolved {
  let made = defaults;
  for (const overrides of layersOf(place)) {
    const override = overrides?.[policy.id];
    if (override !== undefined) made = overridden(policy, made, override);
  }
  return made;
}

/** Least specific first. */
const layersOf = ({ settings, procedure, workstation }: SettingsPlace): (SettingOverrides | undefined)[] => [
  settings,
  procedure?.settings,
  workstation?.model.settings,
];

/** Does anything but the shipped default stand for this policy here? */
export const isOverridden = (policy: Policy, { settings, procedure, workstation }: SettingsPlace): boolean =>
  settings[policy.id] !== undefined ||
  procedure?.settings?.[policy.id] !== undefined ||
  workstation?.model.settings?.[policy.id] !== undefined;

/**
 * The settings of a fixed list of policies, remembered for each set of site settings: all rooms of a site share them, unless
 * their model or procedure says otherwise.
 */
export function settingsOfAll(policies: readonly Policy[]): (place: SettingsPlace) => readonly Resolved[] {
  const known: Readonly<Record<Scheme, WeakMap<object, readonly Resolved[]>>> = {
    US: new WeakMap(),
    ISO: new WeakMap(),
  };
  const untouched: Readonly<Record<Scheme, object>> = { US: {}, ISO: {} };
  return (place) => {
    const make = () => policies.map((policy) => resolved(policy, place));
    if (place.procedure?.settings !== undefined || place.workstation?.model.settings !== undefined) return make();
    const { scheme } = place.facility;
    const key = isEmpty(place.settings) ? untouched[scheme] : place.settings;
    const found = known[scheme].get(key);
    if (found !== undefined) return found;
    const made = make();
    known[scheme].set(key, made);
    return made;
  };
}

function isEmpty(settings: object): boolean {
  for (const _ in settings) return false;
  return true;
}

/** The same, with the types of one policy's own settings. */
export function valuesOf<S extends Settings>(policy: Policy<S>, place: SettingsPlace): SettingValues<S> {
  return resolved(policy, place).values as SettingValues<S>;
}

function shippedOf(policy: Policy, scheme: Scheme): Resolved {
  const known = shipped[scheme].get(policy);
  if (known) return known;
  const values: Record<string, SettingValue> = {};
  for (const [name, setting] of Object.entries(policy.settings)) values[name] = shippedSetting(setting, scheme).default;
  const first = Object.values(policy.settings)[0];
  const made: Resolved = {
    on: true,
    values,
    citation: first ? shippedSetting(first, scheme).citation : null,
    version: 0,
  };
  shipped[scheme].set(policy, made);
  return made;
}

const shippedSetting = (setting: Setting, scheme: Scheme) => (scheme === "ISO" && setting.iso ? setting.iso : setting);

function overridden(policy: Policy, under: Resolved, override: SettingOverride): Resolved {
  const values: Record<string, SettingValue> = { ...under.values };
  for (const [name, setting] of Object.entries(policy.settings)) {
    const value = override.values[name];
    // A value of another kind cannot have been meant as this limit; the one it would replace is the cautious answer.
    if (value !== undefined && sameKind(value, setting)) values[name] = value;
  }
  return {
    on: override.on ?? under.on,
    values,
    citation: override.citation || under.citation,
    version: override.version,
  };
}

/**
 * Is this value of the kind the setting has: a quantity that measures the same thing, a number, a switch, a word? Where the shipped
 * values of the two schemes measure differently, as a pressure and a share of the rated one, either will do.
 */
export function sameKind(value: SettingValue, setting: Setting): boolean {
  if (setting.words !== undefined) return typeof value === "string" && setting.words.includes(value);
  return isLike(value, setting.default) || (setting.iso !== undefined && isLike(value, setting.iso.default));
}

function isLike(value: SettingValue, as: SettingValue): boolean {
  if (typeof value !== "object" || typeof as !== "object") return typeof value === typeof as;
  return valueIn(value, as.unit) !== null;
}
