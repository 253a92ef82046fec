import type { Actor } from "@/lib/auth/actor";
import { checkDayAt, checkDayOn } from "@/lib/domain/check-day";
import type { Policy, Rule } from "@/lib/domain/rule";
import { ordinaryMorning } from "@/lib/domain/rule-effect";
import { RULES } from "@/lib/domain/rules/all";
import { POLICIES } from "@/lib/domain/rules/policies";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { resolved } from "@/lib/domain/rules/settings";
import { shippedIn, unitsOfSetting, wordsOfSetting } from "@/lib/domain/setting-range";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { RuleChangeView, RuleLine, RulesView } from "@/lib/schemas/rules";
import type { Frame } from "@/lib/storage/facility-frame";
import { everyHolder } from "@/lib/storage/places";
import { ruleChanges, type StoredChange } from "@/lib/storage/rule-changes";
import { type RuleEffects, ruleEffects } from "@/lib/storage/rule-effects";
import { addDays, timestampOf } from "@/lib/units/time";

const DAYS = 30;

/** Every rule with what it does, what it is set to and what came of it, and every change that was proposed. */
export const readRules = (actor: Actor, reading: Reading = appReading()): Promise<RulesView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const clock = checkClock(frame);
      const to = checkDayAt(clock, now).date;
      const dates = Array.from({ length: DAYS }, (_, ago) => addDays(to, ago - DAYS + 1));
      const from = dates[0] ?? to;
      const effects = await ruleEffects(tx, facilityId, {
        timeZone: frame.facility.timeZone,
        from: checkDayOn(clock, from).from,
        to: now,
        dates,
      });
      const changes = (await ruleChanges(tx, facilityId)).map((change) => viewOf(change, actor));
      const { rooms, workstations } = await everyHolder(tx, facilityId);
      return {
        settingsVersion: frame.settingsVersion,
        from,
        to,
        mornings: effects.days.length,
        rules: [...RULES, ...POLICIES].map((policy) => lineOf(policy, frame, effects)),
        open: changes.filter(({ decision }) => decision === null),
        past: changes.filter(({ decision }) => decision !== null),
        toJudge: rooms.length + workstations.length,
        at: timestampOf(now),
      };
    },
    reading,
  );

const isRule = (policy: Policy | Rule): policy is Rule => "severity" in policy;

function lineOf(policy: Policy | Rule, frame: Frame, { rules, days }: RuleEffects): RuleLine {
  const present = resolved(policy, frame);
  const effect = rules.find(({ rule }) => rule === policy.id);
  const { share, setWrong, everyMorning } = ordinaryMorning(policy.id, effect?.mornings ?? [], days);
  return {
    id: policy.id,
    what: policy.what,
    severity: isRule(policy) ? policy.severity : null,
    citation: frame.settings[policy.id]?.citation || (isRule(policy) ? policy.citation : null),
    on: present.on,
    version: present.version,
    values: Object.entries(policy.settings).map(([name, setting]) => {
      const shipped = shippedIn(setting, frame.facility.scheme);
      const citation = frame.facility.scheme === "ISO" && setting.iso ? setting.iso.citation : setting.citation;
      return {
        name,
        shipped,
        present: present.values[name] ?? shipped,
        citation,
        units: [...unitsOfSetting(setting)],
        choices: wordsOfSetting(policy.id, name) === null ? null : [...(wordsOfSetting(policy.id, name) ?? [])],
      };
    }),
    fired: effect?.fired ?? 0,
    acted: effect?.acted ?? 0,
    ordinaryShare: share,
    setWrong,
    everyMorning,
  };
}

function viewOf(change: StoredChange, actor: Actor): RuleChangeView {
  const { proposedBy, proposedByName, decidedByName, setting, was, ...rest } = change;
  return {
    ...rest,
    setting: setting && { on: setting.on, values: { ...setting.values }, citation: setting.citation },
    was: was && { on: was.on, values: { ...was.values }, citation: was.citation },
    proposedBy: proposedByName,
    own: proposedBy === actor.personId,
    decidedBy: decidedByName,
  };
}
