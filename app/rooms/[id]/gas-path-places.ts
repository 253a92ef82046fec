import type { ItemId } from "@/lib/domain/items";

export type PathZone = "high" | "intermediate" | "low" | "breathing" | "scavenging" | "beside";

interface Place {
  readonly id: string;
  readonly zone: PathZone;
  readonly title: string;
  readonly items: readonly ItemId[];
}

/** Places that every workstation has at most once, each with the items answered there; the first names it. */
export const PLACES: readonly Place[] = [
  { id: "hoses", zone: "intermediate", title: "Supply hoses", items: ["hoses"] },
  { id: "supply-failure", zone: "intermediate", title: "Supply failure alarm", items: ["supply-failure-alarm"] },
  { id: "flush", zone: "intermediate", title: "Oxygen flush", items: ["oxygen-flush", "auxiliary-oxygen"] },
  { id: "flow-controls", zone: "low", title: "Flow controls", items: ["flow-controls"] },
  { id: "hypoxic-guard", zone: "low", title: "Hypoxic guard", items: ["hypoxic-guard"] },
  { id: "interlock", zone: "low", title: "Interlock", items: ["vaporizer-interlock"] },
  { id: "leak-test", zone: "low", title: "Leak test", items: ["low-pressure-leak"] },
  { id: "outlet", zone: "low", title: "Common gas outlet", items: ["fresh-gas-hose", "outlet-selector"] },
  { id: "valves", zone: "breathing", title: "Valves", items: ["valves"] },
  { id: "circuit", zone: "breathing", title: "Circuit, mask, bag", items: ["circuit"] },
  {
    id: "oxygen-sensor",
    zone: "breathing",
    title: "Oxygen sensor",
    items: ["oxygen-in-air", "oxygen-after-flush", "low-oxygen-alarm", "oxygen-as-found"],
  },
  { id: "breathing-leak", zone: "breathing", title: "Leak at 30 cmH₂O", items: ["breathing-leak"] },
  {
    id: "absorbent",
    zone: "breathing",
    title: "Absorbent",
    items: ["absorbent-colour", "absorbent-co2", "absorbent-dry"],
  },
  { id: "apl", zone: "breathing", title: "APL valve", items: ["apl"] },
  { id: "ventilator", zone: "breathing", title: "Ventilator", items: ["ventilator", "disconnect-alarm"] },
  { id: "flow-sensor", zone: "breathing", title: "Flow sensor", items: ["flow-sensor"] },
  { id: "scavenging", zone: "scavenging", title: "Scavenging", items: ["scavenging-extraction", "scavenging-relief"] },
  {
    id: "rescue",
    zone: "beside",
    title: "Self-inflating bag, oxygen, key",
    items: ["self-inflating-bag", "separate-oxygen", "cylinder-key"],
  },
  { id: "suction", zone: "beside", title: "Suction", items: ["suction"] },
  { id: "power", zone: "beside", title: "Power", items: ["mains-power", "battery"] },
  {
    id: "monitors",
    zone: "beside",
    title: "Monitors",
    items: ["capnograph", "oximeter", "ecg", "blood-pressure", "agent-monitor", "sample-line", "water-trap"],
  },
  { id: "final-state", zone: "beside", title: "Final state", items: ["final-state", "self-test"] },
];
