import type { Answer } from "@/lib/domain/answer";
import type { Observation } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { FindingDraft, RuleContext } from "@/lib/domain/rule";

/** One subject of an item with the observation that stands for it. */
export interface Seen {
  readonly subject: Subject;
  readonly observation: Observation;
}

const NONE: readonly Seen[] = [];

export const failingOf = (context: RuleContext, item: ItemId): readonly Seen[] => seenAs(context, item, "failing");
export const passingOf = (context: RuleContext, item: ItemId): readonly Seen[] => seenAs(context, item, "passing");

function seenAs(context: RuleContext, item: ItemId, state: "failing" | "passing"): readonly Seen[] {
  const stands = context.of(item);
  if (stands.length === 0) return NONE;
  const seen: Seen[] = [];
  for (const { subject, standing } of stands) {
    if (standing.state === state) seen.push({ subject, observation: standing.observation });
  }
  return seen;
}

/** Answered and standing, well or badly: for what a reading says besides. */
export function answeredOf(context: RuleContext, item: ItemId): readonly Seen[] {
  const stands = context.of(item);
  if (stands.length === 0) return NONE;
  const seen: Seen[] = [];
  for (const { subject, standing } of stands) {
    if (standing.state === "passing" || standing.state === "failing")
      seen.push({ subject, observation: standing.observation });
  }
  return seen;
}

const LONGEST_NOTE = 80;
/** Said by the record and not by a person who looked. */
export const QUARANTINED = "quarantined";

/** The words the person added, as part of a one-line reason. */
export function noted(answer: Answer): string {
  const note = answer.note?.trim();
  if (!note) return "";
  if (note === QUARANTINED) return " (quarantined)";
  return `: ${note.length > LONGEST_NOTE ? `${note.slice(0, LONGEST_NOTE - 1)}…` : note}`;
}

/** A finding for each failing subject of an item that is answered by pass or fail. */
export function failures(
  context: RuleContext,
  item: ItemId,
  text: string,
  more: Partial<FindingDraft> = {},
): FindingDraft[] {
  return failingOf(context, item).map(({ subject, observation }) => ({
    subject,
    text: `${text}${noted(observation.answer)}`,
    items: [item],
    since: observation.observedAt,
    ...more,
  }));
}

/** The machine itself as a subject; a room without one speaks for itself. */
export function workstationSubject({ evidence }: RuleContext): Subject {
  if (evidence.workstation) return { kind: "workstation", id: evidence.workstation.id };
  return { kind: "room", id: evidence.room?.id ?? evidence.facility.id };
}
