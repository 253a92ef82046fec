import type { EvidenceEvent, WorkstationEvidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { EventKind } from "@/lib/domain/vocabulary";
import { type Instant, instantOf, type Timestamp } from "@/lib/units/time";

/**
 * What an event makes due again. The model is the ASA 2008 rule that the low-pressure leak test is repeated whenever a vaporizer
 * is changed (from memory); the rest of the table is common practice, no source.
 */
export interface RecheckRow {
  readonly item: ItemId;
  /**
   * same: about the thing the event is about, owed also where the daily procedure does not ask for it;
   * every: about each subject the item has here, as far as the procedure asks it of this model at all.
   */
  readonly of: "same" | "every";
}

const same = (item: ItemId): RecheckRow => ({ item, of: "same" });
const every = (item: ItemId): RecheckRow => ({ item, of: "every" });

export const RECHECK: Readonly<Record<EventKind, readonly RecheckRow[] | "everything">> = {
  "vaporizer-fitted": [
    same("vaporizer-seated"),
    same("filler-closed"),
    same("vaporizer-fill"),
    every("vaporizer-interlock"),
    every("low-pressure-leak"),
    every("fresh-gas-hose"),
    every("vapor-free"),
  ],
  // The mount that is left must close: interlock and leak test, for what still stands there.
  "vaporizer-removed": [every("vaporizer-interlock"), every("low-pressure-leak")],
  "absorbent-changed": [every("breathing-leak")],
  "cylinder-swapped": [same("cylinder-gauge"), same("yoke-leak"), every("nitrous-oxide-isolated")],
  "sensor-replaced": [
    same("oxygen-in-air"),
    same("oxygen-after-flush"),
    same("low-oxygen-alarm"),
    every("breathing-leak"),
  ],
  "moved-in": [
    every("pipeline-pressure"),
    every("hoses"),
    every("scavenging-extraction"),
    every("mains-power"),
    every("final-state"),
    every("nitrous-oxide-isolated"),
  ],
  refilled: [same("filler-closed")],
  // The circuit belongs to the check before each case and never moves the board.
  "circuit-changed": [],
  serviced: "everything",
  // Pressure proves pressure, and not which gas.
  "pipeline-event": [same("pipeline-pressure"), same("pipeline-identity")],
  "power-event": [same("mains-power")],
  // A case that began in a room that might not start leaves the whole check to be done after it.
  "emergency-use": "everything",
};

/** Does this event unsettle what was seen of that item and subject before it? */
export function unsettles(
  event: EvidenceEvent,
  item: ItemId,
  subject: Subject,
  covered: readonly ItemId[] = [],
): boolean {
  const rows = RECHECK[event.kind];
  if (rows === "everything") return true;
  return rows.some((row) => rowCovers(row, event, item, subject) || byRunningSelfTest(row, item, covered));
}

function rowCovers(row: RecheckRow, event: EvidenceEvent, item: ItemId, subject: Subject): boolean {
  if (row.item !== item) return false;
  if (row.of === "every") return true;
  if (event.subject.kind === subject.kind) return event.subject.id === subject.id;
  // A pipeline event about a room or a whole zone touches every gas that comes out of the wall there.
  return event.kind === "pipeline-event" && event.subject.kind !== "pipeline";
}

/** Where the model's self-test stands for an item, making that item due again means running the self-test again. */
const byRunningSelfTest = (row: RecheckRow, item: ItemId, covered: readonly ItemId[]): boolean =>
  item === "self-test" && covered.includes(row.item);

/** The items an event makes due for the part it is about, as one line of help beside the event. */
export function recheckOf(kind: EventKind): readonly ItemId[] | "everything" {
  const rows = RECHECK[kind];
  return rows === "everything" ? rows : rows.map(({ item }) => item);
}

/**
 * Events that the record of what is fitted implies: a part fitted without a recorded event of its own owes the same as one
 * fitted with it, so that no way of entering a part skips its recheck. Parts fitted before `since` have nothing to unsettle.
 */
export function impliedEvents(
  workstation: WorkstationEvidence,
  events: readonly EvidenceEvent[],
  since: Instant,
): { readonly event: EvidenceEvent; readonly at: Instant }[] {
  const { cylinders, vaporizers, absorbent, oxygenSensor } = workstation.fitted;
  const implied: { event: EvidenceEvent; at: Instant }[] = [];
  const add = (
    kind: EventKind,
    subjectKind: Subject["kind"],
    part: { readonly id: string; readonly from: Timestamp },
  ) => {
    const at = instantOf(part.from);
    if (at < since) return;
    const event = impliedEvent(kind, { kind: subjectKind, id: part.id }, part.from);
    if (!events.some((recorded) => recordsTheSame(recorded, event))) implied.push({ event, at });
  };
  for (const part of cylinders) add("cylinder-swapped", "cylinder", part);
  for (const part of vaporizers) add("vaporizer-fitted", "vaporizer", part);
  for (const part of absorbent) add("absorbent-changed", "absorbent", part);
  if (oxygenSensor !== null) add("sensor-replaced", "oxygen-sensor", oxygenSensor);
  return implied;
}

function impliedEvent(kind: EventKind, subject: Subject, at: Timestamp): EvidenceEvent {
  return { id: `fitted:${subject.kind}:${subject.id}`, kind, subject, at, zone: null };
}

const recordsTheSame = (event: EvidenceEvent, made: EvidenceEvent): boolean =>
  event.kind === made.kind &&
  event.subject.kind === made.subject.kind &&
  event.subject.id === made.subject.id &&
  instantOf(event.at) >= instantOf(made.at);
