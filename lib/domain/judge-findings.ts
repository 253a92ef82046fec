import type { Allowance, Evidence } from "@/lib/domain/evidence";
import { sameSubject } from "@/lib/domain/items";
import { type JudgeContext, NOBODY } from "@/lib/domain/judge-context";
import { byText } from "@/lib/domain/judge-signatures";
import { type Finding, SEVERITIES, type Severity } from "@/lib/domain/judgement";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { type Resolved, settingsOfAll } from "@/lib/domain/rules/settings";
import type { Role } from "@/lib/domain/vocabulary";
import { instantOf } from "@/lib/units/time";

/** Every rule asked once, its drafts completed, each thing said once at its worst, in order of consequence. */
export function findingsOf(context: JudgeContext): Finding[] {
  const findings: Finding[] = [];
  const settings = settingsOfRules(context.evidence);
  for (let place = 0; place < RULES.length; place += 1) addFindings(place, context, settings, findings);
  context.asking = NOBODY;
  return findings.length < 2 ? findings : saidOnce(findings.sort(byConsequence));
}

/** What one rule alone finds, before anything is said only once. */
export function findingsOfRule(place: number, context: JudgeContext): readonly Finding[] {
  const findings: Finding[] = [];
  addFindings(place, context, settingsOfRules(context.evidence), findings);
  context.asking = NOBODY;
  return findings;
}

function addFindings(place: number, context: JudgeContext, settings: readonly Resolved[], findings: Finding[]): void {
  const rule = RULES[place] as Rule;
  if (rule.onlyOfFailing && !context.fails(rule)) return;
  const ofRule = settings[place] as Resolved;
  if (!ofRule.on && !rule.always) return;
  context.asking = place;
  for (const draft of rule.judge(context, ofRule.values)) findings.push(completed(draft, rule, ofRule, context));
}

function completed(draft: FindingDraft, rule: Rule, settings: Resolved, context: RuleContext): Finding {
  const severity = draft.severity ?? rule.severity;
  const finding: Finding = {
    rule: rule.id,
    severity,
    subject: draft.subject,
    text: draft.text,
    measured: draft.measured ?? null,
    limit: draft.limit ?? null,
    citation: draft.citation ?? settings.citation ?? rule.citation,
    settingsVersion: settings.version,
    items: draft.items ?? rule.items,
    takesAway: draft.takesAway ?? [],
    supplyFailure: draft.supplyFailure ?? false,
    allowedUntil: null,
  };
  return severity === "limits" ? underAllowance(finding, draft, rule, context) : finding;
}

/**
 * A limit may be allowed for a time by those who have the right to. When that time has ended and the thing is still there,
 * the next case is stopped: an allowance is a loan, not a repair.
 */
function underAllowance(finding: Finding, draft: FindingDraft, rule: Rule, context: RuleContext): Finding {
  const allowance = longestAllowance(context.evidence, rule, draft);
  if (allowance === null) return finding;
  if (!context.hasCome(instantOf(allowance.until))) return { ...finding, allowedUntil: allowance.until };
  return { ...finding, severity: "stops", text: `${finding.text}; the time it was allowed for has ended` };
}

function longestAllowance({ workstation }: Evidence, rule: Rule, draft: FindingDraft): Allowance | null {
  const since = draft.since === undefined ? null : instantOf(draft.since);
  const valid = (workstation?.allowed ?? []).filter(
    (allowance) =>
      allowance.rule === rule.id &&
      isByRight(allowance, rule) &&
      (!allowance.subject || sameSubject(allowance.subject, draft.subject)) &&
      (since === null || instantOf(allowance.until) > since),
  );
  return valid.sort((left, right) => instantOf(right.until) - instantOf(left.until))[0] ?? null;
}

/** Where roles must agree together they are different people: one person with both roles has only agreed with himself. */
function isByRight(allowance: Allowance, rule: Rule): boolean {
  const gave = (role: Role) => allowance.by.some((one) => one.role === role);
  if (!rule.allowedTogether) return rule.allowedBy.some(gave);
  const people = new Set(allowance.by.filter(({ role }) => rule.allowedBy.includes(role)).map(({ person }) => person));
  return rule.allowedBy.every(gave) && people.size >= rule.allowedBy.length;
}

const RANK = Object.fromEntries(SEVERITIES.map((severity, rank) => [severity, rank])) as Record<Severity, number>;
const RULE_RANK = new Map(RULES.map(({ id }, rank) => [id, rank]));

/** The settings of every rule in the order of the list. */
const settingsOfRules = settingsOfAll(RULES);

/** By severity, then in the order of the rules, which is the order of consequence, then the same way every time. */
export function byConsequence(left: Finding, right: Finding): number {
  return (
    RANK[left.severity] - RANK[right.severity] ||
    (RULE_RANK.get(left.rule) ?? 0) - (RULE_RANK.get(right.rule) ?? 0) ||
    byText(left.subject.kind, right.subject.kind) ||
    byText(left.subject.id, right.subject.id) ||
    byText(left.text, right.text) ||
    byText(JSON.stringify([left.measured, left.limit]), JSON.stringify([right.measured, right.limit]))
  );
}

/** Work and notes are left out where something worse says the same; everything else is always said. */
export const isMinor = ({ severity }: Finding): boolean => severity === "due" || severity === "note";

/**
 * Work or a note about something that already stops or limits for the same item would say the same thing twice, and so would
 * two kinds of work that one reading of one cylinder calls for.
 */
function saidOnce(findings: readonly Finding[]): Finding[] {
  const kept: Finding[] = [];
  for (const finding of findings) {
    if (!(isMinor(finding) && kept.some((worse) => coversTheSame(worse, finding)))) kept.push(finding);
  }
  return kept;
}

function coversTheSame(worse: Finding, finding: Finding): boolean {
  if (worse.severity === "owed" || !sameSubject(worse.subject, finding.subject)) return false;
  if (!finding.items.some((item) => worse.items.includes(item))) return false;
  return RANK[worse.severity] < RANK[finding.severity] || sameReading(worse.measured, finding.measured);
}

const sameReading = (one: Finding["measured"], other: Finding["measured"]): boolean =>
  one !== null &&
  other !== null &&
  typeof one !== "string" &&
  typeof other !== "string" &&
  one.value === other.value &&
  one.unit === other.unit;
