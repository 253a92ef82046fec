import { type CheckClock, type CheckDay, checkDayOn } from "@/lib/domain/check-day";
import { equal } from "@/lib/domain/department-merge";
import { type ItemId, isOwnItem, itemOf } from "@/lib/domain/items";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import type { ProcedureItem } from "@/lib/domain/procedure/model";
import type { ProcedureDraft, ProcedureText } from "@/lib/domain/procedure-change/model";
import { ALL_ITEMS } from "@/lib/domain/ready-made-procedures/all-items";
import { RULES } from "@/lib/domain/rules/all";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Instant, LocalDate } from "@/lib/units/time";

/** The newest version of a kind, in force or waiting to be. */
export interface NewestVersion {
  readonly id: string;
  readonly version: number;
  readonly inForceFrom: Instant;
  readonly text: ProcedureText;
}

type Gone = "not-found" | "already-done" | "moved-on" | "taken" | "invalid";

const noDraft = () => refused("not-found", "There is no draft with this id in your facility.", "draftId");

/** Saves the text over the revision that was seen: of two editors at once one wins, and the other is told and loses nothing. */
export function decideSave(
  draft: ProcedureDraft | null,
  seenRevision: number,
  text: ProcedureText,
): Outcome<ProcedureDraft, Gone> {
  if (!draft) return noDraft();
  if (draft.state === "proposed")
    return refused("taken", "This draft waits for its second person. Take it back before you change it.", "draftId");
  if (draft.state !== "draft") return refused("already-done", `This draft is ${draft.state}.`, "draftId");
  if (draft.revision !== seenRevision)
    return refused(
      "moved-on",
      `${draft.savedByName} saved this draft in the meantime. Yours is still on this screen: compare, then save again.`,
      "revision",
    );
  const problem = textProblem(draft.kind, text);
  return problem ? refused("invalid", problem.message, problem.field) : done(draft);
}

export interface TextProblem {
  readonly field: string;
  readonly message: string;
}

/** What makes a text impossible, by its field: an item that is asked twice in the same place, or one that nobody could answer. */
export function textProblem(kind: CheckKind, { items }: ProcedureText): TextProblem | null {
  if (items.length === 0) return { field: "text.items", message: "A procedure asks for something. Add an item." };
  for (const [index, item] of items.entries()) {
    const field = `text.items.${index}`;
    const twice = items.findIndex((other) => other.item === item.item && equal(other.applies, item.applies));
    if (twice < index)
      return { field: `${field}.item`, message: `${itemOf(item.item).name} is asked twice under the same conditions.` };
    const problem = ownProblem(item) ?? shippedProblem(item);
    if (problem) return { field: `${field}.${problem.field}`, message: problem.message };
  }
  if (kind === "daily" && items.every(({ by }) => by === "provider" || by === "not-delegated"))
    return {
      field: "text.items",
      message: "A daily check that only a provider may answer leaves nothing to a technician.",
    };
  return null;
}

function ownProblem({ item, answer, limits }: ProcedureItem): TextProblem | null {
  if (!isOwnItem(item)) return null;
  if (limits === undefined) return null;
  if (answer.kind !== "number") return { field: "limits", message: "Only a reading has limits." };
  const { atLeast = answer.least, atMost = answer.most } = limits;
  if (atLeast > atMost)
    return { field: "limits.atLeast", message: `At least ${atLeast} and at most ${atMost} leave no good reading.` };
  return null;
}

/** A listed item is judged by its rule: it keeps a form that its rule understands, and brings no limits of its own. */
function shippedProblem({ item, answer, limits, failing }: ProcedureItem): TextProblem | null {
  if (isOwnItem(item)) return null;
  if (limits !== undefined || failing !== undefined)
    return {
      field: "limits",
      message: `${itemOf(item).name} is judged by its rule: change its limit among the rules.`,
    };
  const forms = ALL_ITEMS.filter((one) => one.item === item).map((one) => one.answer.kind);
  return forms.includes(answer.kind)
    ? null
    : {
        field: "answer",
        message: `${itemOf(item).name} is answered by ${forms.join(" or ")}: its rule reads nothing else.`,
      };
}

/** Sends a draft to its second person. */
export function decidePropose(
  draft: ProcedureDraft | null,
  seenRevision: number,
  newest: NewestVersion | null,
  inForceOn: LocalDate,
  today: CheckDay,
  clock: CheckClock,
): Outcome<ProcedureDraft, Gone> {
  const saved = decideSave(draft, seenRevision, draft?.text ?? { name: "", citation: "", items: [] });
  if (!saved.ok) return saved;
  if (newest && equal(asText(newest.text), asText(saved.value.text)))
    return refused("already-done", "Nothing would change: the draft says what the newest version says.", "draftId");
  const date = dateProblem(inForceOn, today, newest, clock);
  return date ? refused("invalid", date, "inForceOn") : saved;
}

const asText = ({ name, citation, items }: ProcedureText): ProcedureText => ({ name, citation, items });

function dateProblem(on: LocalDate, today: CheckDay, newest: NewestVersion | null, clock: CheckClock): string | null {
  if (on < today.date) return `${on} is past: choose today, ${today.date}, or a later day.`;
  const from = checkDayOn(clock, on).from;
  if (newest && newest.inForceFrom > from && newest.inForceFrom >= today.to)
    return `Version ${newest.version} waits to come into force after ${on}: choose its day or a later one.`;
  return null;
}

/** From when a version holds: the beginning of the check day, or now, when it is today's. */
export const inForceFrom = (on: LocalDate, clock: CheckClock, now: Instant): Instant =>
  Math.max(checkDayOn(clock, on).from, now) as Instant;

/** The second person: never one who wrote any of it, and only what they saw, over the version that it was written from. */
export function decideApprove(
  draft: ProcedureDraft | null,
  seenRevision: number,
  newest: NewestVersion | null,
  today: CheckDay,
  clock: CheckClock,
  personId: string,
): Outcome<ProcedureDraft & { readonly inForceOn: LocalDate }, Gone | "not-allowed"> {
  const open = proposed(draft);
  if (!open.ok) return open;
  const { value } = open;
  if (value.authors.includes(personId))
    return refused("not-allowed", "You wrote in this draft yourself. Somebody else must approve it.", "draftId");
  if (value.revision !== seenRevision)
    return refused("moved-on", "The draft was changed after you opened it. Read it again.", "revision");
  if ((newest?.id ?? null) !== value.baseId)
    return refused(
      "moved-on",
      "Another version was approved after this draft was begun. Decline it, and begin anew.",
      "draftId",
    );
  const on = value.inForceOn ?? today.date;
  // A day that has gone by while it waited: it begins now, and never in the past.
  const from = [on, today.date].toSorted().at(-1) ?? on;
  const date = dateProblem(from, today, newest, clock);
  return date ? refused("invalid", date, "inForceOn") : done({ ...value, inForceOn: from });
}

/** Back to writing: declined by somebody else, or taken back by an author. Nothing of the text is lost. */
export function decideDecline(draft: ProcedureDraft | null, personId: string) {
  const open = proposed(draft);
  return open.ok ? done({ draft: open.value, own: open.value.authors.includes(personId) }) : open;
}

function proposed(draft: ProcedureDraft | null): Outcome<ProcedureDraft, "not-found" | "already-done"> {
  if (!draft) return noDraft();
  if (draft.state !== "proposed")
    return refused("already-done", `This draft does not wait for a second person: it is ${draft.state}.`, "draftId");
  return done(draft);
}

/** What a text no longer asks that the version before did, and so can never be answered in this kind of check again. */
export const removedItems = (before: ProcedureText | null, after: ProcedureText): ItemId[] => {
  const left = new Set(after.items.map(({ item }) => item));
  return [...new Set(before?.items.map(({ item }) => item) ?? [])].filter((item) => !left.has(item));
};

/** What differs between two texts, in the names that people use. */
export interface TextDifference {
  readonly added: readonly string[];
  readonly removed: readonly string[];
  readonly reworded: readonly string[];
  /** The items that both have stand in another order. */
  readonly reordered: boolean;
  /** Another name or source. */
  readonly renamed: boolean;
}

export function textDifference(before: ProcedureText | null, after: ProcedureText): TextDifference {
  const asked = new Set(before?.items.map(({ item }) => item) ?? []);
  const names = (items: readonly ItemId[]): string[] => [...new Set(items)].map((item) => itemOf(item).name);
  const same = after.items.filter(({ item }) => asked.has(item));
  return {
    added: names(after.items.map(({ item }) => item).filter((item) => !asked.has(item))),
    removed: names(removedItems(before, after)),
    reworded: names(same.filter((one) => !before?.items.some((other) => equal(other, one))).map(({ item }) => item)),
    reordered: before !== null && isReordered(before, after),
    renamed: before !== null && (before.name !== after.name || before.citation !== after.citation),
  };
}

/** Do the items that both have stand in another order? */
function isReordered(before: ProcedureText, after: ProcedureText): boolean {
  const orderIn = (one: ProcedureText, other: ProcedureText) => {
    const kept = new Set(other.items.map(({ item }) => item));
    return one.items.map(({ item }) => item).filter((item) => kept.has(item));
  };
  return orderIn(before, after).join(" ") !== orderIn(after, before).join(" ");
}

/** What a daily check that leaves an item out no longer sees, although a rule that stops the workstation judges it. */
export function unseenBy(kind: CheckKind, before: ProcedureText | null, after: ProcedureText): string[] {
  if (kind !== "daily") return [];
  return removedItems(before, after).flatMap((item) => {
    const rule = RULES.find(({ items, severity }) => severity === "stops" && items.includes(item));
    return rule
      ? [`${itemOf(item).name}: nobody will look at it each day, and “${rule.what}” will not be judged by it.`]
      : [];
  });
}
