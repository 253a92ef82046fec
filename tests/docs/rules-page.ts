import { FOR_WORDS } from "@/lib/domain/allowance";
import type { SettingValue } from "@/lib/domain/evidence";
import type { Policy, Rule, Setting } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { POLICIES } from "@/lib/domain/rules/policies";

const INTRODUCTION = `# Rules

Written from the rules themselves by \`npx vitest run tests/docs -u\`; do not edit it by hand. \`npm test\` fails when it is out of date.

Order of consequence: of two reasons of the same severity, the one further up is told first. Severities: out (out of service),
stops (do not use), owed (to check), limits (ready, limited), due (work, no effect on starting), note. A rule may conclude a weaker
severity than its own; the examples say where. Every limit is a site setting; a model or a procedure may set it otherwise, and of
several the nearest to the machine stands: model over procedure over site over what is shipped here. What "from memory" and "common practice" mean stands in [sources.md](sources.md).
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
    ...(rule.always ? ["- Cannot be switched off: a state stands on it"] : []),
    ...allowance(rule),
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

function allowance(rule: Rule): string[] {
  if (rule.allowedBy.length === 0) return [];
  const may = `- Use with this limit may be allowed by: ${allowedBy(rule)}`;
  if (rule.use === undefined) return [may];
  const { first, differently, longest } = rule.use;
  return [`${may}, for at most ${FOR_WORDS[longest]} at once`, `- First: ${first}`, `- Meanwhile: ${differently}`];
}

const allowedBy = ({ allowedBy: roles, allowedTogether }: Rule): string =>
  roles.map((role) => role.replaceAll("-", " ")).join(allowedTogether ? " and " : " or ");

function settingsTable({ settings }: Policy): string {
  const rows = Object.entries(settings).flatMap(([name, setting]) => [
    row(name, setting),
    ...(setting.iso ? [row(`${name} (ISO)`, setting.iso)] : []),
  ]);
  return ["| Limit | Shipped value | Unit | Source |", "|---|---|---|---|", ...rows, ""].join("\n");
}

const row = (name: string, setting: Pick<Setting, "default" | "citation">): string =>
  `| ${name} | ${shown(setting.default)} | ${unitOf(setting.default)} | ${cell(setting.citation)} |`;

const unitOf = (value: SettingValue): string => (typeof value === "object" ? value.unit : "");

function shown(value: SettingValue): string {
  if (typeof value === "object") return String(value.value);
  return typeof value === "number" ? String(Math.round(value * 1000) / 1000) : String(value);
}

const cell = (text: string): string => text.replaceAll("|", "\\|");
