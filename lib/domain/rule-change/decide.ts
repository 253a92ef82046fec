import { equal } from "@/lib/domain/department-merge";
import type { RuleSetting } from "@/lib/domain/evidence";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Policy } from "@/lib/domain/rule";
import type { RuleChange, SettingAsked, SettingDraft } from "@/lib/domain/rule-change/model";
import { RULES } from "@/lib/domain/rules/all";
import { POLICIES } from "@/lib/domain/rules/policies";
import { settingProblem } from "@/lib/domain/setting-range";
import type { Scheme } from "@/lib/domain/vocabulary";

/** Rules give reasons and can be switched off; policies only say how long or until when. */
const known: ReadonlyMap<string, Policy> = new Map([...RULES, ...POLICIES].map((policy) => [policy.id, policy]));
export const isPolicy = (id: string): boolean => POLICIES.some((policy) => policy.id === id);

export interface ProposalKnown {
  readonly scheme: Scheme;
  readonly present: RuleSetting | null;
  readonly open: { readonly proposedByName: string } | null;
}

export interface Proposal {
  readonly policy: Policy;
  readonly setting: SettingDraft | null;
}

/** A change of one rule as somebody proposes it: of a kind, unit and range that the rule itself knows, and really a change. */
export function decidePropose(
  { scheme, present, open }: ProposalKnown,
  rule: string,
  asked: SettingAsked,
): Outcome<Proposal, "not-found" | "taken" | "already-done" | "invalid"> {
  const policy = known.get(rule);
  if (!policy) return refused("not-found", `There is no rule "${rule}". Choose one of the list.`, "rule");
  if (open)
    return refused(
      "taken",
      `${open.proposedByName} has proposed a change of this rule already. Approve or decline it first.`,
      "rule",
    );
  if (asked === "shipped")
    return present === null
      ? refused("already-done", "This rule is as it was shipped.", "change")
      : done({ policy, setting: null });
  if (!asked.on && isPolicy(rule))
    return refused(
      "invalid",
      "This is not a rule that gives reasons, so it cannot be switched off. Change its values.",
      "on",
    );
  if (!asked.on && RULES.some(({ id, always }) => id === rule && always))
    return refused("invalid", "Without this rule a state would have no reason: it cannot be switched off.", "on");
  const problem = settingProblem(policy, asked.values, scheme);
  if (problem) return refused("invalid", problem.message, `values.${problem.name}`);
  const setting: SettingDraft = { on: asked.on, values: asked.values, citation: asked.citation };
  return equal(setting, draftOf(present))
    ? refused("already-done", "Nothing would change: the rule is set so already.", "values")
    : done({ policy, setting });
}

/** What stands, as a proposal would say it; the shipped rule is on and has no values of its own. */
const draftOf = (present: RuleSetting | null): SettingDraft =>
  present === null
    ? { on: true, values: {}, citation: "" }
    : { on: present.on, values: present.values, citation: present.citation };

/** A second person agrees: never the one who proposed it, and only while the rule is what that one saw. */
export function decideApprove(change: RuleChange | null, present: RuleSetting | null, personId: string) {
  const open = decidable(change);
  if (!open.ok) return open;
  if (open.value.proposedBy === personId)
    return refused("not-allowed", "You proposed this change yourself. Somebody else must approve it.", "changeId");
  if (!equal(open.value.was, present))
    return refused(
      "moved-on",
      "The rule was changed after this was proposed. Decline it, and propose it again from what stands now.",
      "changeId",
    );
  return open;
}

/** Anybody who may keep rules declines a change; whoever proposed it takes it back. */
export function decideDecline(change: RuleChange | null, personId: string) {
  const open = decidable(change);
  return open.ok
    ? done({
        change: open.value,
        decision: open.value.proposedBy === personId ? ("withdrawn" as const) : ("declined" as const),
      })
    : open;
}

function decidable(change: RuleChange | null) {
  if (!change) return refused("not-found", "There is no proposed change with this id in your facility.", "changeId");
  return change.decision === null
    ? done(change)
    : refused("already-done", `This change is ${change.decision} already.`, "changeId");
}

/** The settings with one rule changed; a rule as shipped does not stand in them. */
export function settingsWith(
  settings: Readonly<Record<string, RuleSetting>>,
  rule: string,
  draft: SettingDraft | null,
  version: number,
): Readonly<Record<string, RuleSetting>> {
  const others = Object.entries(settings).filter(([id]) => id !== rule);
  return Object.fromEntries(draft === null ? others : [...others, [rule, { ...draft, version }]]);
}
