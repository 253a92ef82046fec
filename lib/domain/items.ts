/**
 * The items a check may hold. Ids are stable: evidence of ten years ago is read with them.
 * `about` says who keeps the answer when a workstation moves: the workstation itself, or the room it stood in.
 */
export type ItemAbout = "workstation" | "room";
export type SubjectKind =
  | "workstation"
  | "room"
  | "cylinder"
  | "vaporizer"
  | "absorbent"
  | "oxygen-sensor"
  | "pipeline";

export interface ItemDefinition {
  readonly name: string;
  readonly about: ItemAbout;
  /** What one answer is about; an item is asked once for each such subject. A pipeline is named by its gas. */
  readonly subject: SubjectKind;
}

const ofWorkstation = (name: string, subject: SubjectKind = "workstation"): ItemDefinition => ({
  name,
  about: "workstation",
  subject,
});
const ofRoom = (name: string, subject: SubjectKind = "room"): ItemDefinition => ({ name, about: "room", subject });

export const ITEMS = {
  "self-inflating-bag": ofRoom("Self-inflating bag"),
  "separate-oxygen": ofRoom("Separate oxygen cylinder with regulator"),
  "cylinder-key": ofRoom("Cylinder key"),
  "mains-power": ofWorkstation("Mains power"),
  battery: ofWorkstation("Backup battery"),
  suction: ofRoom("Suction"),
  capnograph: ofWorkstation("Capnograph"),
  oximeter: ofWorkstation("Pulse oximeter"),
  ecg: ofWorkstation("ECG"),
  "blood-pressure": ofWorkstation("Blood pressure"),
  "agent-monitor": ofWorkstation("Agent monitor"),
  "cylinder-gauge": ofWorkstation("Cylinder gauge", "cylinder"),
  "yoke-leak": ofWorkstation("Yoke leak", "cylinder"),
  "pipeline-pressure": ofRoom("Pipeline pressure", "pipeline"),
  "pipeline-identity": ofRoom("Pipeline identity", "pipeline"),
  hoses: ofWorkstation("Supply hoses"),
  "vaporizer-fill": ofWorkstation("Vaporizer level", "vaporizer"),
  "vaporizer-seated": ofWorkstation("Vaporizer seated and locked", "vaporizer"),
  "vaporizer-interlock": ofWorkstation("Vaporizer interlock"),
  "filler-closed": ofWorkstation("Vaporizer filler closed", "vaporizer"),
  "low-pressure-leak": ofWorkstation("Low-pressure leak test"),
  "fresh-gas-hose": ofWorkstation("Fresh-gas hose reconnected"),
  "flow-controls": ofWorkstation("Flow controls"),
  "hypoxic-guard": ofWorkstation("Hypoxic guard"),
  "supply-failure-alarm": ofWorkstation("Oxygen supply failure alarm"),
  "oxygen-flush": ofWorkstation("Oxygen flush"),
  "auxiliary-oxygen": ofWorkstation("Auxiliary oxygen flowmeter"),
  "scavenging-extraction": ofRoom("Scavenging extraction"),
  "scavenging-relief": ofWorkstation("Scavenging relief"),
  "oxygen-as-found": ofWorkstation("Oxygen sensor as found", "oxygen-sensor"),
  "oxygen-in-air": ofWorkstation("Oxygen in room air", "oxygen-sensor"),
  "oxygen-after-flush": ofWorkstation("Oxygen after flush", "oxygen-sensor"),
  "low-oxygen-alarm": ofWorkstation("Low-oxygen alarm", "oxygen-sensor"),
  "absorbent-colour": ofWorkstation("Absorbent colour", "absorbent"),
  "absorbent-co2": ofWorkstation("Inspired carbon dioxide", "absorbent"),
  "absorbent-dry": ofWorkstation("Absorbent suspected dry", "absorbent"),
  "breathing-leak": ofWorkstation("Breathing-system leak"),
  valves: ofWorkstation("Unidirectional valves"),
  apl: ofWorkstation("APL valve"),
  circuit: ofWorkstation("Circuit, mask and bag"),
  ventilator: ofWorkstation("Ventilator"),
  "disconnect-alarm": ofWorkstation("Disconnection alarm"),
  "outlet-selector": ofWorkstation("Gas-outlet selector"),
  "flow-sensor": ofWorkstation("Flow sensor"),
  "water-trap": ofWorkstation("Water trap"),
  "sample-line": ofWorkstation("Sample line"),
  "final-state": ofWorkstation("Final state"),
  "self-test": ofWorkstation("Self-test"),
  "nitrous-oxide-isolated": ofWorkstation("Nitrous oxide isolated"),
  "vapor-free": ofWorkstation("Vapor-free preparation"),
  label: ofWorkstation("Service label and stickers"),
  "settings-confirmed": ofWorkstation("Settings and readiness confirmed"),
  "two-bag-test": ofWorkstation("Two-bag test"),
  "airway-equipment": ofRoom("Airway equipment"),
  "found-power": ofWorkstation("As found: power"),
  "found-gas": ofWorkstation("As found: gas flow"),
  "close-flows": ofWorkstation("Flows shut at close-out"),
  "close-vaporizers": ofWorkstation("Vaporizer filled and off at close-out", "vaporizer"),
  "close-cylinder": ofWorkstation("Cylinder shut at close-out", "cylinder"),
  "close-suction": ofRoom("Suction emptied at close-out"),
} as const satisfies Record<string, ItemDefinition>;

export type ShippedItemId = keyof typeof ITEMS;
/** A question that a site added. Its id says what it is about and, in words, what it asks: it is read without any table, for ever. */
export type OwnItemId = `own-${ItemAbout}-${string}`;
export type ItemId = ShippedItemId | OwnItemId;
export const ITEM_IDS = Object.keys(ITEMS) as ShippedItemId[];

const OWN_ITEM = /^own-(workstation|room)-([a-z0-9]+(?:-[a-z0-9]+)*)$/;
export const OWN_ITEM_LONGEST = 72;

export const isOwnItem = (item: string): item is OwnItemId => OWN_ITEM.test(item) && item.length <= OWN_ITEM_LONGEST;

/** What an item is: from the list, or read from the id of a site's own question. */
export function itemOf(item: ItemId): ItemDefinition {
  const shipped = (ITEMS as Readonly<Record<string, ItemDefinition>>)[item];
  if (shipped !== undefined) return shipped;
  const [, about = "workstation", words = item] = OWN_ITEM.exec(item) ?? [];
  const name = words.replaceAll("-", " ");
  const made = about === "room" ? ofRoom : ofWorkstation;
  return made(name.charAt(0).toUpperCase() + name.slice(1));
}

/** The id of a question of a site's own, from its name; null when no letter or digit is left of it. */
export function ownItemId(about: ItemAbout, name: string): OwnItemId | null {
  const words = name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 48)
    .replace(/^-+|-+$/g, "");
  return words === "" ? null : `own-${about}-${words}`;
}

export interface Subject {
  readonly kind: SubjectKind;
  /** The subject's id; for a pipeline the gas. */
  readonly id: string;
}

export const sameSubject = (left: Subject, right: Subject): boolean => left.kind === right.kind && left.id === right.id;
