import { command } from "@/lib/commands/command";
import { refused } from "@/lib/domain/outcome";
import { decideDecline, decidePropose } from "@/lib/domain/rule-change/decide";
import type { SettingAsked, SettingDraft } from "@/lib/domain/rule-change/model";
import { settingSaid } from "@/lib/domain/setting-words";
import { declineRulesReply, declineRulesRequest, proposeRulesReply, proposeRulesRequest } from "@/lib/schemas/rules";
import { decideRuleChange, insertRuleChange, openChangeOf, ruleChanges } from "@/lib/storage/rule-changes";

interface ChangeGiven {
  readonly on: boolean;
  readonly values: SettingDraft["values"];
  readonly citation?: string | undefined;
}
const asked = (change: "shipped" | ChangeGiven): SettingAsked =>
  change === "shipped" ? change : { ...change, citation: change.citation ?? "" };

/** What one person proposes changes nothing until a second one approves it. */
export const proposeRules = command({
  name: "propose-rules",
  summary: "Propose a change of one rule: other values, switched off or on, or back to the shipped default.",
  schema: proposeRulesRequest,
  reply: proposeRulesReply,
  locks: () => ({}),
  load: async (tx, { rule }, { begun }) => ({
    scheme: begun.facility.scheme,
    present: begun.settings[rule] ?? null,
    open: await openChangeOf(tx, begun.scope.facilityId, rule),
  }),
  decide: (known, { rule, change }) => decidePropose(known, rule, asked(change)),
  apply: async (tx, { policy, setting }, { rule, reason }, context) => {
    const { begun, actor, role, now } = context;
    const changeId = context.newId();
    const change = {
      id: changeId,
      rule,
      setting,
      was: begun.settings[rule] ?? null,
      reason,
      proposedBy: actor.personId,
      role,
      at: now,
    };
    if (!(await insertRuleChange(tx, begun.scope.facilityId, change)))
      return refused(
        "taken",
        "Somebody else proposed a change of this rule in the meantime. Look at theirs first.",
        "rule",
      );
    return {
      reply: { changeId },
      note: {
        text: `Proposed a change of the rule ${rule}: ${settingSaid(setting)}`,
        details: [policy.what, `Because: ${reason}`],
        data: { changeId, rule, setting, was: change.was, reason },
      },
    };
  },
});

/** Declined by somebody else, or taken back by whoever proposed it. */
export const declineRules = command({
  name: "decline-rules",
  summary: "Decline a proposed change of a rule, or take back an own one, with a reason.",
  schema: declineRulesRequest,
  reply: declineRulesReply,
  locks: () => ({}),
  load: async (tx, { changeId }, { begun }) => (await ruleChanges(tx, begun.scope.facilityId, changeId))[0] ?? null,
  decide: (change, _input, { actor }) => decideDecline(change, actor.personId),
  apply: async (tx, { change, decision }, { changeId, reason }, { begun, actor, role, now }) => {
    const decided = { decision, by: actor.personId, role, at: now, reason, settingsVersion: null };
    if (!(await decideRuleChange(tx, begun.scope.facilityId, changeId, decided)))
      return refused("moved-on", "Somebody else decided on this change in the meantime.", "changeId");
    return {
      reply: { changeId, decision },
      note: {
        text: `${decision === "declined" ? "Declined" : "Took back"} the change of the rule ${change.rule} that ${change.proposedByName} proposed`,
        details: [`Because: ${reason}`],
        data: { changeId, rule: change.rule, reason },
      },
    };
  },
});
