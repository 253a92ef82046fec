import { EVIDENCE_SCHEMA, type SettingValue } from "@/lib/domain/evidence";
import type { ItemId } from "@/lib/domain/items";
import { ENGINE_VERSION, type Severity } from "@/lib/domain/judgement";
import type { LimitedUse, Policy, Rule, Setting } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { POLICIES } from "@/lib/domain/rules/policies";
import type { Role } from "@/lib/domain/vocabulary";

/** The rules as data, for who wants to compare them with a policy, or to write settings. */
export interface RuleTable {
  readonly schema: string;
  readonly engineVersion: number;
  readonly rules: readonly RuleRow[];
  readonly policies: readonly PolicyRow[];
}

export interface PolicyRow {
  readonly id: string;
  readonly what: string;
  readonly settings: Readonly<Record<string, SettingRow>>;
}

export interface RuleRow extends PolicyRow {
  /** The place in the order of consequence: of two reasons of one severity the lower one is told first. */
  readonly order: number;
  readonly severity: Severity;
  /** It cannot be switched off. */
  readonly always: boolean;
  readonly citation: string;
  readonly items: readonly ItemId[];
  readonly allowedBy: readonly Role[];
  /** All of those roles together, and not any one of them. */
  readonly allowedTogether: boolean;
  /** On what terms use with this limit may be allowed; null where it may not. */
  readonly use: LimitedUse | null;
  readonly examples: readonly { readonly name: string; readonly scheme: string; readonly concludes: string }[];
}

export interface SettingRow {
  readonly default: SettingValue;
  /** Where the value is one of a few words. */
  readonly words?: readonly string[];
  readonly citation: string;
  readonly iso?: { readonly default: SettingValue; readonly citation: string };
}

export function ruleTable(): RuleTable {
  return {
    schema: EVIDENCE_SCHEMA,
    engineVersion: ENGINE_VERSION,
    rules: RULES.map(ruleRow),
    policies: POLICIES.map(policyRow),
  };
}

function ruleRow(rule: Rule, place: number): RuleRow {
  const { id, what, settings } = policyRow(rule);
  const { severity, citation, items, allowedBy, allowedTogether = false, always = false, use = null, examples } = rule;
  return {
    id,
    what,
    order: place + 1,
    severity,
    always,
    settings,
    citation,
    items,
    allowedBy,
    allowedTogether,
    use,
    examples: examples.map(({ name, scheme = "US", expect }) => ({ name, scheme, concludes: expect })),
  };
}

function policyRow({ id, what, settings }: Policy): PolicyRow {
  const rows = Object.entries(settings).map(([name, setting]) => [name, settingRow(setting)] as const);
  return { id, what, settings: Object.fromEntries(rows) };
}

const settingRow = ({ default: shipped, words, citation, iso }: Setting): SettingRow => ({
  default: shipped,
  ...(words === undefined ? {} : { words }),
  citation,
  ...(iso === undefined ? {} : { iso: { default: iso.default, citation: iso.citation } }),
});
