import type { EvidenceEvent, WorkstationEvidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { EventKind } from "@/lib/domain/vocabulary";

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
  ],
  "absorbent-changed": [every("breathing-leak")],
  "cylinder-swapped": [same("cylinder-gauge"), same("yoke-leak")],
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
  ],
  refilled: [same("filler-closed")],
  // The circuit belongs to the check before each case and never moves the board.
  "circuit-changed": [],
  serviced: "everything",
  // Pressure proves pressure, and not which gas.
  "pipeline-event": [same("pipeline-pressure"), same("pipeline-identity")],
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
 * fitted with it, so that no way of entering a part skips its recheck.
 */
export function impliedEvents(workstation: WorkstationEvidence, events: readonly EvidenceEvent[]): EvidenceEvent[] {
  const { cylinders, vaporizers, absorbent, oxygenSensor } = workstation.fitted;
  const implied = [
    ...cylinders.map(({ id, from }) => impliedEvent("cylinder-swapped", { kind: "cylinder", id }, from)),
    ...vaporizers.map(({ id, from }) => impliedEvent("vaporizer-fitted", { kind: "vaporizer", id }, from)),
    ...absorbent.map(({ id, from }) => impliedEvent("absorbent-changed", { kind: "absorbent", id }, from)),
    ...(oxygenSensor
      ? [impliedEvent("sensor-replaced", { kind: "oxygen-sensor", id: oxygenSensor.id }, oxygenSensor.from)]
      : []),
  ];
  return implied.filter((made) => !events.some((event) => recordsTheSame(event, made)));
}

function impliedEvent(kind: EventKind, subject: Subject, at: string): EvidenceEvent {
  return { id: `fitted:${subject.kind}:${subject.id}`, kind, subject, at, zone: null };
}

const recordsTheSame = (event: EvidenceEvent, made: EvidenceEvent): boolean =>
  event.kind === made.kind &&
  event.subject.kind === made.subject.kind &&
  event.subject.id === made.subject.id &&
  Date.parse(event.at) >= Date.parse(made.at);
