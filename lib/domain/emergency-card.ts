import type { DepartmentEventKind } from "@/lib/domain/event/model";

/** One step of the card: what to do, and what to beware of meanwhile. */
export interface CardStep {
  readonly act: string;
  readonly beware?: string;
}

export interface EmergencyCard {
  readonly title: string;
  readonly steps: readonly CardStep[];
  readonly source: string;
}

const SOURCE =
  "Common practice, no source, in the order of the ASA 2008 checkout's own concern for ventilating by hand (from memory). The department's own card and the maker's instructions come first.";

const BY_HAND: CardStep = {
  act: "Ventilate by hand. A gas-driven ventilator takes several times what the patient does.",
  beware: "With no gas at all: the self-inflating bag, and intravenous anesthesia.",
};
const LOW_FLOW: CardStep = {
  act: "Low fresh-gas flow. Read the gauge, and say the minutes out loud.",
  beware: "Watch inspired oxygen, agent and carbon dioxide: at low flow they drift.",
};

const LOW: EmergencyCard = {
  title: "Oxygen pipeline lost",
  steps: [
    {
      act: "Open the reserve oxygen cylinder, all the way. Watch its gauge and the inspired oxygen.",
      beware: "A gauge that does not rise: another cylinder, or the self-inflating bag on the separate one.",
    },
    {
      act: "Take the oxygen hose off the wall.",
      beware: "Left on, the machine may draw from the pipeline before the cylinder, whatever is in it.",
    },
    BY_HAND,
    LOW_FLOW,
    { act: "Call for more cylinders, and tell the surgeon. Do not begin another case." },
  ],
  source: SOURCE,
};

const HIGH: EmergencyCard = {
  title: "Pipeline pressure high",
  steps: [
    { act: "Open the reserve oxygen cylinder, then take the hose off the wall." },
    BY_HAND,
    LOW_FLOW,
    {
      act: "Look at the flowmeters and the regulators before the hose goes back.",
      beware: "Too much pressure can break a regulator: the machine is checked again.",
    },
  ],
  source: SOURCE,
};

const RESTORED: EmergencyCard = {
  title: "Pipeline restored: prove the gas",
  steps: [
    {
      act: "Stay on the cylinder until the gas is proved.",
      beware: "Right pressure says nothing about which gas. If identity is in doubt the hose stays off the wall.",
    },
    { act: "In each room: pressure at the gauge, inside the band." },
    {
      act: "In each room: oxygen analyzer on pipeline gas, the cylinder shut, until it reads over 90 %.",
      beware: "An analyzer that was not calibrated proves nothing.",
    },
    { act: "Shut the reserve cylinder, and read what is left in it.", beware: "Left open, it empties unseen." },
  ],
  source: SOURCE,
};

const POWER: EmergencyCard = {
  title: "Power failed",
  steps: [
    { act: "Look: is the workstation running on its battery? How long does it say?" },
    {
      act: "Oxygen flows without power. Ventilate by hand where the ventilator stops.",
      beware: "A piston or a turbine stops with its battery; electronic flow controls have a manual one beside them.",
    },
    { act: "A light, a pulse with the finger, a blood pressure by cuff: the monitors may go." },
    { act: "Suction may fail with the plant: the hand-held one." },
    { act: "When power is back: plug, mains light, alarms, ventilator settings." },
  ],
  source: SOURCE,
};

const RECALL: EmergencyCard = {
  title: "Recall",
  steps: [
    { act: "Read the notice: which serial numbers, and what can happen." },
    { act: "Where it can harm a patient now: hold the workstation, and bring a spare." },
    { act: "Biomedical engineering decides for each workstation, and says so here." },
  ],
  source: SOURCE,
};

const CARDS: Readonly<Record<DepartmentEventKind, EmergencyCard>> = {
  "pipeline-low": LOW,
  "pipeline-high": HIGH,
  "pipeline-restored": RESTORED,
  power: POWER,
  recall: RECALL,
};

/** What to do at once, in order. Oxygen is what a patient dies without; of another gas only its own steps are left. */
export function emergencyCard(kind: DepartmentEventKind, gas: string | null): EmergencyCard {
  if (kind !== "pipeline-low" || gas === null || gas === "oxygen") return CARDS[kind];
  return {
    title: gas === "air" ? "Medical air lost" : "Nitrous oxide lost",
    steps: [
      { act: "Oxygen is there: go on with oxygen and an agent, or intravenously." },
      {
        act: "Look at what the ventilator is driven by.",
        beware: "A bellows driven by air changes to oxygen or stops: by hand meanwhile.",
      },
      { act: "Take the hose of that gas off the wall until its identity is proved." },
    ],
    source: SOURCE,
  };
}
