import { answerKey } from "@/lib/domain/check/model";
import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import type { AppliesWhen, Procedure, ProcedureItem } from "@/lib/domain/procedure/model";
import { applies, subjectsOf } from "@/lib/domain/procedure-applies";
import { type ResolvedForm, resolvedForm } from "@/lib/domain/procedure-form";
import { type ItemLimits, itemLimits } from "@/lib/domain/procedure-limits";
import { ALL_ITEMS } from "@/lib/domain/ready-made-procedures/all-items";
import type { Place } from "@/lib/domain/rule";
import { lowerFirst, subjectName } from "@/lib/domain/wording";
import type { Timestamp } from "@/lib/units/time";

/** One question of a check: an item of the procedure about one subject, with the site's unit and limits filled in. */
export interface CheckItem {
  readonly key: string;
  readonly item: ItemId;
  readonly subject: Subject;
  readonly subjectName: string;
  readonly title: string;
  readonly how: string;
  readonly why: string;
  readonly whenItFails: string;
  readonly form: ResolvedForm;
  readonly limits: ItemLimits | null;
  readonly by: ProcedureItem["by"];
}

/** What asks for an item about one subject. */
export interface ItemAbout {
  readonly item: ItemId;
  readonly subject: Subject;
}

/**
 * The questions this procedure asks here, in its own order: once for each subject that is fitted or piped. Shortened: without
 * what the same user need not repeat on a successive case.
 */
export function expandProcedure(procedure: Pick<Procedure, "items">, place: Place, shortened = false): CheckItem[] {
  const items = shortened ? procedure.items.filter(({ sameUserMaySkip }) => sameUserMaySkip !== true) : procedure.items;
  return items.flatMap((item) => expandItem(item, place));
}

function expandItem(item: ProcedureItem, place: Place): CheckItem[] {
  if (!applies(item.applies, item.item, place)) return [];
  return subjectsOf(item, place).map((subject) => checkItemOf(item, subject, place));
}

function checkItemOf(item: ProcedureItem, subject: Subject, place: Place): CheckItem {
  const name = subjectName(subject, place.workstation);
  const form = resolvedForm(item.answer, subject, place);
  return {
    key: answerKey(item.item, subject),
    item: item.item,
    subject,
    subjectName: name || itemOf(item.item).name,
    title: name ? `${name}: ${lowerFirst(item.title)}` : item.title,
    how: item.how,
    why: item.why,
    whenItFails: item.whenItFails,
    form,
    limits: itemLimits(item.item, subject, place, form),
    by: item.by,
  };
}

/**
 * The questions for some items, as a recheck or a task asks them: in the procedure's order and words, and in the shipped words
 * for what the procedure does not ask.
 */
export function recheckItems(
  wanted: readonly ItemAbout[],
  procedure: Pick<Procedure, "items" | "own">,
  place: Place,
): CheckItem[] {
  const left = new Set(wanted.map(({ item, subject }) => answerKey(item, subject)));
  const fromProcedure = expandProcedure(procedure, place).filter(({ key }) => left.delete(key));
  const others = wanted.filter(({ item, subject }) => left.delete(answerKey(item, subject)));
  const words = [...(procedure.own ?? []), ...ALL_ITEMS];
  return [...fromProcedure, ...others.flatMap((one) => inOtherWords(one, words, place))];
}

function inOtherWords({ item, subject }: ItemAbout, all: readonly ProcedureItem[], place: Place): CheckItem[] {
  const methods = all.filter((one) => one.item === item);
  const words = methods.find((one) => methodFits(one.applies, place)) ?? methods[0];
  return words === undefined ? [] : [checkItemOf(words, subject, place)];
}

/** Of an item with several methods or units, the one that the model allows and the scheme reads. */
const methodFits = ({ leakTest, scheme }: AppliesWhen, { workstation, facility }: Place): boolean =>
  (scheme === undefined || scheme === facility.scheme) &&
  (leakTest === undefined || workstation === null || leakTest.includes(workstation.model.leakTest));

/** The questions that finishing a task must answer. An item without a subject is asked about every subject it has here. */
export function taskItems(
  task: { readonly items: readonly { readonly item: ItemId; readonly subject: Subject | null }[] },
  procedure: Pick<Procedure, "items" | "own">,
  place: Place,
): CheckItem[] {
  const known = [...procedure.items, ...(procedure.own ?? []), ...ALL_ITEMS];
  const wanted = task.items.flatMap(({ item, subject }): ItemAbout[] => {
    if (subject !== null) return [{ item, subject }];
    const words = known.find((one) => one.item === item);
    return words === undefined ? [] : subjectsOf(words, place).map((one) => ({ item, subject: one }));
  });
  return recheckItems(wanted, procedure, place);
}

/** One version of a procedure with when it came into force. */
export interface VersionInForce {
  readonly inForceFrom: Timestamp;
  readonly items: readonly ItemId[];
}

/**
 * Since when each item is asked, where a version before did not ask it. The versions are given newest first; what the oldest of
 * them asks was asked for long enough.
 */
export function askedSince(versions: readonly VersionInForce[]): ReadonlyMap<ItemId, Timestamp> {
  const since = new Map<ItemId, Timestamp>();
  const [newest] = versions;
  for (const item of newest?.items ?? []) {
    const first = versions.findIndex(({ items }) => !items.includes(item));
    const begun = first < 1 ? undefined : versions[first - 1];
    if (begun) since.set(item, begun.inForceFrom);
  }
  return since;
}
