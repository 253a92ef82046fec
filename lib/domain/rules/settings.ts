import type { RuleSetting, SettingValue } from "@/lib/domain/evidence";
import type { Place, Policy, Setting, Settings, SettingValues } from "@/lib/domain/rule";
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

export function resolved(policy: Policy, place: Pick<Place, "facility" | "settings">): Resolved {
  const defaults = shippedOf(policy, place.facility.scheme);
  const override = place.settings[policy.id];
  return override === undefined ? defaults : overridden(policy, defaults, override);
}

/** The same, with the types of one policy's own settings. */
export function valuesOf<S extends Settings>(
  policy: Policy<S>,
  place: Pick<Place, "facility" | "settings">,
): SettingValues<S> {
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

function overridden(policy: Policy, defaults: Resolved, override: RuleSetting): Resolved {
  const values: Record<string, SettingValue> = { ...defaults.values };
  for (const name of Object.keys(policy.settings)) {
    const value = override.values[name];
    // A value of another kind cannot have been meant as this limit; the shipped one is the cautious answer.
    if (value !== undefined && sameKind(value, values[name])) values[name] = value;
  }
  return { on: override.on, values, citation: override.citation || defaults.citation, version: override.version };
}

/** Is this value of the kind the setting has: a quantity that measures the same thing, a number, a switch, a word? */
export function sameKind(value: SettingValue, as: SettingValue | undefined): boolean {
  if (typeof value !== "object" || typeof as !== "object") return typeof value === typeof as;
  // A share of the rated filling pressure may stand where a pressure stands, and the other way round.
  const share = (unit: string) => unit === "%";
  return valueIn(value, as.unit) !== null || share(value.unit) || share(as.unit);
}
