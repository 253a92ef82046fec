import type { RuleSetting, SettingOverrides, SettingValue } from "@/lib/domain/evidence";
import type { Policy, Setting } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { POLICIES } from "@/lib/domain/rules/policies";
import { mostIn } from "@/lib/exchange/judge/number-checks";
import { quantity } from "@/lib/units/quantity";
import type { Random } from "./random";

/** Another value of the kind a setting has: the shipped one, halved, doubled, none at all. */
function otherValue(random: Random, { default: shipped, words }: Setting): SettingValue {
  if (words !== undefined) return random.one(words);
  const factor = random.one([0, 0.5, 0.9, 1, 1.1, 2]);
  if (typeof shipped === "object")
    return quantity(Math.min(shipped.value * factor, mostIn(shipped.unit)), shipped.unit);
  if (typeof shipped === "number") return shipped * factor;
  if (typeof shipped === "boolean") return random.chance(0.5);
  return /^\d\d:\d\d$/.test(shipped) ? random.one(["00:00", "02:30", "03:00", "06:00", "23:30"]) : shipped;
}

const isAlways = ({ id }: Policy): boolean => RULES.some((rule) => rule.id === id && rule.always === true);

function values(random: Random, { settings }: Policy): Record<string, SettingValue> {
  const changed = random.some(Object.entries(settings), 0.6);
  return Object.fromEntries(changed.map(([name, setting]) => [name, otherValue(random, setting)]));
}

export function randomSettings(random: Random): Record<string, RuleSetting> {
  const changed = random.some([...RULES, ...POLICIES], random.trouble * random.one([0, 0, 0.05, 0.3]));
  const setting = (policy: Policy): RuleSetting => ({
    on: isAlways(policy) || random.chance(0.8),
    values: values(random, policy),
    version: random.whole(1, 9),
    citation: random.one(["site policy", ""]),
  });
  return Object.fromEntries(changed.map((policy) => [policy.id, setting(policy)]));
}

export function randomOverrides(random: Random): SettingOverrides {
  const changed = random.some(RULES, random.trouble * random.one([0, 0, 0.1]));
  const override = (policy: Policy) => ({
    on: isAlways(policy) ? random.one([null, true]) : random.one([null, true, false]),
    values: values(random, policy),
    version: random.whole(1, 9),
    citation: random.one(["model", ""]),
  });
  return Object.fromEntries(changed.map((policy) => [policy.id, override(policy)]));
}
