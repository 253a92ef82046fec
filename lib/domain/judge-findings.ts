import type { Allowance, Evidence } from "@/lib/domain/evidence";
import { sameSubject } from "@/lib/domain/items";
import { byText } from "@/lib/domain/judge-signatures";
import { type Finding, SEVERITIES, type Severity } from "@/lib/domain/judgement";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { type Resolved, resolved } from "@/lib/domain/rules/settings";
import type { Scheme } from "@/lib/domain/vocabulary";
import { instantOf } from "@/lib/units/time";

/** Every rule asked once, its drafts completed, each thing said once at its worst, in order of consequence. */
export function findingsOf(context: RuleContext): Finding[] {
  const findings: Finding[] = [];
  const settings = settingsOfRules(context.evidence);
  RULES.forEach((rule, place) => {
    const ofRule = settings[place] ?? resolved(rule, context.evidence);
    if (!ofRule.on) return;
    for (const draft of rule.judge(context, ofRule.values)) findings.push(completed(draft, rule, ofRule, context));
  });
  return findings.length < 2 ? findings : saidOnce(findings.sort(byConsequence));
}

/** Where a site changed nothing, all its rooms run on one and the same list. */
const shipped = new Map<Scheme, readonly Resolved[]>();

function settingsOfRules(evidence: Evidence): readonly Resolved[] {
  const { scheme } = evidence.facility;
  if (Object.keys(evidence.settings).length > 0) return RULES.map((rule) => resolved(rule, evidence));
  const known = shipped.get(scheme);
  if (known !== undefined) return known;
  const made = RULES.map((rule) => resolved(rule, evidence));
  shipped.set(scheme, made);
  return made;
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
  const until = instantOf(allowance.until);
  context.changesAt(until);
  if (context.now < until) return { ...finding, allowedUntil: allowance.until };
  return { ...finding, severity: "stops", text: `${finding.text}; the time it was allowed for has ended` };
}

function longestAllowance({ workstation }: Evidence, rule: Rule, draft: FindingDraft): Allowance | null {
  const since = draft.since === undefined ? null : instantOf(draft.since);
  const valid = (workstation?.allowed ?? []).filter(
    (allowance) =>
      allowance.rule === rule.id &&
      isByRight(allowance, rule) &&
      (since === null || instantOf(allowance.until) > since),
  );
  return valid.sort((left, right) => instantOf(right.until) - instantOf(left.until))[0] ?? null;
}

function isByRight(allowance: Allowance, rule: Rule): boolean {
  const gave = (role: string) => allowance.by.some((one) => one.role === role);
  return rule.allowedTogether ? rule.allowedBy.every(gave) : rule.allowedBy.some(gave);
}

const RANK = Object.fromEntries(SEVERITIES.map((severity, rank) => [severity, rank])) as Record<Severity, number>;
const RULE_RANK = new Map(RULES.map(({ id }, rank) => [id, rank]));

/** By severity, then in the order of the rules, which is the order of consequence, then the same way every time. */
export function byConsequence(left: Finding, right: Finding): number {
  return (
    RANK[left.severity] - RANK[right.severity] ||
    (RULE_RANK.get(left.rule) ?? 0) - (RULE_RANK.get(right.rule) ?? 0) ||
    byText(left.subject.kind, right.subject.kind) ||
    byText(left.subject.id, right.subject.id) ||
    byText(left.text, right.text)
  );
}

/**
 * Work or a note about something that already stops or limits for the same item would say the same thing twice, and so would
 * two kinds of work that one reading of one cylinder calls for.
 */
function saidOnce(findings: readonly Finding[]): Finding[] {
  const kept: Finding[] = [];
  for (const finding of findings) {
    const minor = finding.severity === "due" || finding.severity === "note";
    if (!(minor && kept.some((worse) => coversTheSame(worse, finding)))) kept.push(finding);
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
