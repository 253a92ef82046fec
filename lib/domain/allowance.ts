import type { Allowance } from "@/lib/domain/evidence";
import type { Judgement } from "@/lib/domain/judgement";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { Rule } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { ALLOWED_FOR, type AllowedFor, type Role } from "@/lib/domain/vocabulary";
import { DAY, type Instant, instantOf, later } from "@/lib/units/time";

/**
 * For how long use with a limit may be allowed. The idea of fixed periods is that of aviation's minimum equipment list
 * (FAA and EASA, repair intervals of 3 and 10 days, from memory); which a department uses is its own decision.
 */
export function allowedUntil(allowFor: AllowedFor, now: Instant, listEnd: Instant): Instant {
  switch (allowFor) {
    case "this-list":
      return listEnd;
    case "1-day":
      return later(now, DAY);
    case "3-days":
      return later(now, 3 * DAY);
    case "10-days":
      return later(now, 10 * DAY);
  }
}

export const FOR_WORDS: Readonly<Record<AllowedFor, string>> = {
  "this-list": "this list",
  "1-day": "1 day",
  "3-days": "3 days",
  "10-days": "10 days",
};

export interface Allowing {
  /** The role in which the person allows it. */
  readonly role: Role;
  /** Who must still agree before it holds. */
  readonly stillNeeds: readonly Role[];
}

/** May somebody with these roles allow that limit? A stop is never allowed away, only cleared. */
export function decideAllow(
  judgement: Judgement,
  given: readonly Allowance[],
  ruleId: string,
  roles: readonly Role[],
  allowFor: AllowedFor | null = null,
  personId: string | null = null,
): Outcome<Allowing, "not-found" | "not-allowed"> {
  const finding = judgement.reasons.find(({ rule }) => rule === ruleId);
  const rule = RULES.find(({ id }) => id === ruleId);
  if (!finding || !rule)
    return refused("not-found", "This limit is not in force here: it may have been cleared.", "rule");
  if (rule.allowedBy.length === 0 || finding.severity !== "limits")
    return refused("not-allowed", "This is not a limit that can be allowed; it must be cleared.", "rule");
  const agreed = given.find((allowance) => allowance.rule === ruleId)?.by ?? [];
  const role = roleFor(rule, roles, agreed, personId);
  if (!role)
    return refused(
      "not-allowed",
      `This limit is allowed by: ${rule.allowedBy.map((one) => one.replaceAll("-", " ")).join(" and ")}.`,
    );
  const longest = rule.use?.longest ?? "this-list";
  if (allowFor !== null && ALLOWED_FOR.indexOf(allowFor) > ALLOWED_FOR.indexOf(longest))
    return refused("not-allowed", `This limit is allowed for at most ${FOR_WORDS[longest]} at once.`, "allowFor");
  const others = rule.allowedTogether ? rule.allowedBy.filter((one) => one !== role) : [];
  return done({ role, stillNeeds: others.filter((one) => !agreed.some((by) => by.role === one)) });
}

/** Where two must agree, somebody with both roles takes the one that is still missing; who gave a word already gives the same one again. */
function roleFor(
  rule: Pick<Rule, "allowedBy" | "allowedTogether">,
  roles: readonly Role[],
  agreed: Allowance["by"],
  personId: string | null,
): Role | undefined {
  const mine = rule.allowedBy.filter((one) => roles.includes(one));
  if (!rule.allowedTogether) return mine[0];
  const own = agreed.find(({ person, role }) => person === personId && mine.includes(role))?.role;
  return own ?? mine.find((one) => !agreed.some(({ role }) => role === one)) ?? mine[0];
}

/** May somebody with these roles take back what was allowed? Any one of those who may allow it; what has ended holds nothing back. */
export function decideRevoke(
  given: readonly Allowance[],
  ruleId: string,
  roles: readonly Role[],
  now: Instant,
): Outcome<Allowance, "not-found" | "not-allowed" | "moved-on"> {
  const allowance = given.find(({ rule }) => rule === ruleId);
  if (!allowance) return refused("not-found", "Nobody has allowed this limit here.", "rule");
  if (instantOf(allowance.until) <= now)
    return refused("moved-on", "Its time has ended by itself: the next case is stopped already.", "rule");
  const mayAllow = RULES.find(({ id }) => id === ruleId)?.allowedBy ?? [];
  if (!mayAllow.some((role) => roles.includes(role)))
    return refused(
      "not-allowed",
      `This is taken back by: ${mayAllow.map((one) => one.replaceAll("-", " ")).join(" or ")}.`,
    );
  return done(allowance);
}
