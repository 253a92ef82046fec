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
} as const satisfies Record<string, ItemDefinition>;

export type ItemId = keyof typeof ITEMS;
export const ITEM_IDS = Object.keys(ITEMS) as ItemId[];

export interface Subject {
  readonly kind: SubjectKind;
  /** The subject's id; for a pipeline the gas. */
  readonly id: string;
}

export const sameSubject = (left: Subject, right: Subject): boolean => left.kind === right.kind && left.id === right.id;
