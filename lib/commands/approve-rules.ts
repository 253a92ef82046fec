import { command } from "@/lib/commands/command";
import { refused } from "@/lib/domain/outcome";
import { decideApprove, settingsWith } from "@/lib/domain/rule-change/decide";
import { settingSaid } from "@/lib/domain/setting-words";
import { approveRulesReply, approveRulesRequest } from "@/lib/schemas/rules";
import { decideRuleChange, putSettings, ruleChanges } from "@/lib/storage/rule-changes";

/** The second person of two: the next version of the settings is in force at once, and everything is judged by it. */
export const approveRules = command({
  name: "approve-rules",
  meaning: "approved",
  summary: "Approve a change of a rule that somebody else proposed: in force at once, in every room.",
  schema: approveRulesRequest,
  reply: approveRulesReply,
  locks: () => ({ settings: true, everything: true }),
  load: async (tx, { changeId }, { begun }) => {
    const [change] = await ruleChanges(tx, begun.scope.facilityId, changeId);
    return { change: change ?? null, present: (change && begun.settings[change.rule]) ?? null };
  },
  decide: ({ change, present }, _input, { actor }) => decideApprove(change, present, actor.personId),
  apply: async (tx, change, { changeId }, { begun, actor, role, now }) => {
    const { facilityId } = begun.scope;
    const version = begun.settingsVersion + 1;
    const settings = settingsWith(begun.settings, change.rule, change.setting, version);
    const put = await putSettings(tx, facilityId, {
      version,
      document: settings,
      by: actor.personId,
      at: now,
      ruleChangeId: changeId,
    });
    const decided = {
      decision: "approved" as const,
      by: actor.personId,
      role,
      at: now,
      reason: null,
      settingsVersion: version,
    };
    if (!put || !(await decideRuleChange(tx, facilityId, changeId, decided)))
      return refused("moved-on", "The settings were changed in the meantime. Look at the change again.", "changeId");
    return {
      // What the approver reads: the proposal, its reason and who made it.
      shown: JSON.stringify([changeId, change.rule, change.was, change.setting, change.reason, change.proposedBy]),
      reply: { changeId, settingsVersion: version },
      note: {
        text: `Approved the change of the rule ${change.rule} that ${change.proposedByName} proposed: ${settingSaid(change.setting)}`,
        details: [`Settings version ${version} is in force.`, `Because: ${change.reason}`],
        data: {
          changeId,
          rule: change.rule,
          setting: change.setting,
          was: change.was,
          settingsVersion: version,
          author: change.proposedBy,
          approver: actor.personId,
        },
      },
      frame: { settings, settingsVersion: version },
      wholeBoard: true,
    };
  },
});
