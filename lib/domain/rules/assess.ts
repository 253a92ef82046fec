import type { Answer } from "@/lib/domain/answer";
import type { ItemId, Subject } from "@/lib/domain/items";
import { ownAssessment, ownLimit } from "@/lib/domain/own-question";
import type { About, Assessment, Place, Rule, ShownLimit } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { resolved } from "@/lib/domain/rules/settings";

/** The rules that judge an item, by item; found once. */
const byItem = new Map<ItemId, Rule[]>();
for (const rule of RULES) {
  for (const item of rule.items) byItem.set(item, [...(byItem.get(item) ?? []), rule]);
}

const NONE: readonly Rule[] = [];

/** The rule that says what an answer to this item is worth: the first in the list that names the item and assesses it. */
export function ownerOf(item: ItemId, subject: Subject, place: Place): Rule | null {
  for (const rule of byItem.get(item) ?? NONE) {
    if (rule.covers === undefined || rule.covers(subject, place)) return rule;
  }
  return null;
}

/**
 * What an answer is worth today, by the owning rule's limit at this site. A rule that the site switched off no longer fails
 * anything, and its items do not fall to the generic rule: the site decided.
 */
export function assessment(
  answer: Answer,
  about: About,
  owner = ownerOf(about.item, about.subject, about.place),
): Assessment {
  if (owner === null) return ownAssessment(answer, about.item, about.place) ?? plainAssessment(answer);
  const { on, values } = resolved(owner, about.place);
  if (!on) return "pass";
  return owner.assess === undefined ? yesOrNo(answer) : owner.assess(answer, about, values);
}

/** A rule without a limit asks a question of yes or no: a number or a choice does not answer it. */
function yesOrNo(answer: Answer): Assessment {
  if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
  return "uncounted";
}

/** Where no rule has a limit: a pass is a pass, a timed test is its own result, a number or a choice is only recorded. */
export function plainAssessment(answer: Answer): Assessment {
  if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
  if (answer.kind === "timed") return answer.held ? "pass" : "fail";
  if (answer.kind === "gauge" && !answer.openWhenRead) return "uncounted";
  return "pass";
}

/** The limit to show beside an item while it is answered. */
export function shownLimit(about: About): ShownLimit | null {
  const owner = ownerOf(about.item, about.subject, about.place);
  if (owner === null) return ownLimit(about.item, about.place);
  if (owner.shows === undefined) return null;
  const { on, values } = resolved(owner, about.place);
  return on ? owner.shows(about, values) : null;
}
