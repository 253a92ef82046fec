import type { SettingValue } from "@/lib/domain/evidence";
import type { Policy, Rule, Setting } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { checkMarks } from "@/lib/domain/rules/policy/check-marks";
import { checkValidity } from "@/lib/domain/rules/policy/check-validity";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { morning } from "@/lib/domain/rules/policy/morning";

const POLICIES: readonly Policy[] = [checkValidity, checkMarks, endurance, morning];

const INTRODUCTION = `# Rules

Written from the rules themselves by \`npx vitest run tests/docs -u\`; do not edit it by hand. \`npm test\` fails when it is out of date.

Order of consequence: of two reasons of the same severity, the one further up is told first. Severities: out (out of service),
stops (do not use), owed (to check), limits (ready, limited), due (work, no effect on starting), note. A rule may conclude a weaker
severity than its own; the examples say where. What "from memory" and "common practice" mean stands in [sources.md](sources.md).
`;

/** The page of every rule and site setting: what it says, its limits with their sources, who may allow it, and both sides of it. */
export function rulesPage(): string {
  return [
    INTRODUCTION,
    ...RULES.map(ruleSection),
    "# Site settings that are not about a finding\n",
    ...POLICIES.map((policy) => [`## ${policy.id}\n`, `${policy.what}.\n`, settingsTable(policy)].join("\n")),
  ].join("\n");
}

function ruleSection(rule: Rule): string {
  return [
    `## ${rule.id}\n`,
    `${rule.what}.\n`,
    `- Severity: ${rule.severity}`,
    `- Source: ${rule.citation}`,
    ...(rule.items.length > 0 ? [`- Items: ${rule.items.join(", ")}`] : []),
    ...(rule.allowedBy.length > 0 ? [`- Use with this limit may be allowed by: ${allowedBy(rule)}`] : []),
    "",
    ...(Object.keys(rule.settings).length > 0 ? [settingsTable(rule)] : []),
    "| Example | Concludes |",
    "|---|---|",
    ...rule.examples.map(
      ({ name, scheme, expect }) => `| ${cell(name)}${scheme === "ISO" ? " (ISO)" : ""} | ${expect} |`,
    ),
    "",
  ].join("\n");
}

const allowedBy = ({ allowedBy: roles, allowedTogether }: Rule): string =>
  roles.map((role) => role.replaceAll("-", " ")).join(allowedTogether ? " and " : " or ");

function settingsTable({ settings }: Policy): string {
  const rows = Object.entries(settings).flatMap(([name, setting]) => [
    row(name, setting),
    ...(setting.iso ? [row(`${name} (ISO)`, setting.iso)] : []),
  ]);
  return ["| Limit | Shipped value | Source |", "|---|---|---|", ...rows, ""].join("\n");
}

const row = (name: string, setting: Pick<Setting, "default" | "citation">): string =>
  `| ${name} | ${shown(setting.default)} | ${cell(setting.citation)} |`;

function shown(value: SettingValue): string {
  if (typeof value === "object") return `${value.value} ${value.unit}`;
  return typeof value === "number" ? String(Math.round(value * 1000) / 1000) : String(value);
}

const cell = (text: string): string => text.replaceAll("|", "\\|");
