import type { Evidence, EvidenceEvent } from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import { isHere } from "@/lib/domain/judge-here";
import { impliedEvents, RECHECK, unsettles } from "@/lib/domain/recheck";
import { type Instant, instantOf } from "@/lib/units/time";

/** An event with its moment read once. */
export interface ReadEvent {
  readonly event: EvidenceEvent;
  readonly at: Instant;
  /** Nobody recorded it; it follows from when a part was fitted. */
  readonly implied: boolean;
}

/**
 * The events that bear on this room and workstation. Implied ones from before everything that was ever seen or begun here have
 * nothing to unsettle and are left out.
 */
export function eventsOf(evidence: Evidence, seenSince: Instant | null): ReadEvent[] {
  const events: ReadEvent[] = [];
  for (const event of evidence.events) {
    if (isHere(event.subject, evidence)) events.push({ event, at: instantOf(event.at), implied: false });
  }
  if (evidence.workstation === null || seenSince === null) return events;
  for (const { event, at } of impliedEvents(evidence.workstation, evidence.events, seenSince)) {
    events.push({ event, at, implied: true });
  }
  return events;
}

/** The latest event that unsettles an item; of two at the same moment always the same one. */
export function unsettledBy(
  events: readonly ReadEvent[],
  item: ItemId,
  subject: Subject,
  covered: readonly ItemId[],
): ReadEvent | null {
  let found: ReadEvent | null = null;
  for (const one of events) {
    if (!unsettles(one.event, item, subject, covered)) continue;
    if (found === null || one.at > found.at || (one.at === found.at && one.event.id < found.event.id)) found = one;
  }
  return found;
}

/** What the events make due about their own subjects, whether or not a daily procedure asks for it. */
export function askedByEvents(
  events: readonly ReadEvent[],
  evidence: Evidence,
): { readonly item: ItemId; readonly subject: Subject }[] {
  const asked: { item: ItemId; subject: Subject }[] = [];
  for (const { event } of events) {
    const rows = RECHECK[event.kind];
    if (rows === "everything") continue;
    for (const subject of subjectsOfEvent(event, evidence)) {
      for (const { item, of } of rows) {
        if (of === "same" && itemOf(item).subject === subject.kind) asked.push({ item, subject });
      }
    }
  }
  return asked;
}

/** A pipeline event about a whole room touches every gas that comes out of its walls. */
function subjectsOfEvent({ kind, subject }: EvidenceEvent, { room }: Evidence): readonly Subject[] {
  if (kind !== "pipeline-event" || subject.kind === "pipeline") return [subject];
  return (room?.piped ?? []).map((gas) => ({ kind: "pipeline", id: gas }));
}
