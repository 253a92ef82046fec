import type { FittedCylinder, WorkstationEvidence } from "@/lib/domain/evidence";
import { ITEM_IDS, type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import { RULES } from "@/lib/domain/rules/all";
import { AGENTS, DRIVES, GASES, LEAK_TESTS, RECALL_DECISIONS, ROLES } from "@/lib/domain/vocabulary";
import { quantity } from "@/lib/units/quantity";
import type { Random } from "./random";
import { type Clock, maybe } from "./random-clock";
import { randomOverrides } from "./random-settings";

const fittedAt = (random: Random, clock: Clock): string => clock.ago(random.mishap(0.5) ? 60 : 2_000);

function cylinder(random: Random, clock: Clock, order: number): FittedCylinder {
  const gas = random.one(["oxygen", "oxygen", "nitrous-oxide", "air"] as const);
  const unit = random.one(["psi", "bar", "kPa"] as const);
  const rated = { psi: gas === "nitrous-oxide" ? 745 : 1900, bar: gas === "nitrous-oxide" ? 44 : 137, kPa: 13_700 }[
    unit
  ];
  return {
    id: `cylinder-${order}`,
    serial: `C-${order}`,
    position: `${order}`,
    gas,
    scheme: random.one(["US", "ISO"] as const),
    size: "E",
    waterCapacityL: random.one([2, 4.68, 4.8, 9.4]),
    ratedContentsL: random.one([340, 660, 1590]),
    ratedPressure: quantity(rated, unit),
    from: fittedAt(random, clock),
    expiry: maybe(random, 0.3, () => clock.day(20, 20)),
    retestDue: maybe(random, 0.5, () => clock.day(3, 3)),
  };
}

const calibration = (random: Random, clock: Clock) =>
  maybe(random, 0.7, () => {
    const due = clock.day(random.mishap(0.4) ? 4 : 0, 40);
    return { due, windowTo: random.chance(0.5) ? due : clock.day(0, 40) };
  });

export function partsOf({ fitted, id }: WorkstationEvidence): Subject[] {
  return [
    { kind: "workstation", id },
    ...fitted.cylinders.map((one) => ({ kind: "cylinder" as const, id: one.id })),
    ...fitted.vaporizers.map((one) => ({ kind: "vaporizer" as const, id: one.id })),
    ...fitted.absorbent.map((one) => ({ kind: "absorbent" as const, id: one.id })),
    ...(fitted.oxygenSensor ? [{ kind: "oxygen-sensor" as const, id: fitted.oxygenSensor.id }] : []),
  ];
}

export function itemAbout(random: Random, { kind }: Subject): ItemId {
  return random.one(ITEM_IDS.filter((item) => itemOf(item).subject === kind));
}

function randomFitted(random: Random, clock: Clock): WorkstationEvidence["fitted"] {
  return {
    cylinders: random.list(3, (order) => cylinder(random, clock, order)),
    vaporizers: random.list(2, (order) => ({
      id: `vaporizer-${order}`,
      tag: `V-${order}`,
      mount: `${order}`,
      agent: random.one(AGENTS),
      filler: random.one(["keyed", "funnel"]),
      from: fittedAt(random, clock),
      calibration: calibration(random, clock),
    })),
    absorbent: random.list(2, (order) => ({
      id: `absorbent-${order}`,
      tag: `A-${order}`,
      position: `${order}`,
      product: {
        name: "Lime",
        indicator: random.chance(0.8),
        reverts: random.chance(0.4),
        strongBase: random.chance(0.4),
        litresPer100g: 12,
      },
      massG: 1_000,
      from: fittedAt(random, clock),
      dateKnown: random.chance(0.8),
    })),
    oxygenSensor: maybe(random, 0.9, () => ({
      id: "sensor",
      tag: "S-1",
      kind: random.one(["galvanic", "paramagnetic"] as const),
      from: fittedAt(random, clock),
    })),
  };
}

function randomModel(random: Random): WorkstationEvidence["model"] {
  return {
    name: "Tern 2",
    drive: random.one(DRIVES),
    driveGas: random.one([...GASES, "none"] as const),
    leakTest: random.one(LEAK_TESTS),
    oxygenSensor: random.one(["galvanic", "paramagnetic"] as const),
    mounts: random.one([[], ["0", "1"]]),
    yokes: random.list(3, (order) => ({ position: `${order}`, gas: random.one(GASES) })),
    selfTestCovers: random.some(ITEM_IDS, random.one([0, 0.2])),
    outletSelector: random.chance(0.3),
    vaporFreeMinutes: random.one([null, 20, 60]),
    vaporFreeFilterMinutes: random.one([null, 2, 10]),
    settings: randomOverrides(random),
  };
}

/** Anything may be recorded about any part of the workstation, also about one that was taken off. */
export function randomWorkstation(random: Random, clock: Clock): WorkstationEvidence {
  const fitted = randomFitted(random, clock);
  const bare: WorkstationEvidence = {
    id: "workstation",
    tag: "W-7",
    model: randomModel(random),
    fitted,
    holds: [],
    quarantine: [],
    sequestered: random.mishap(0.05),
    faults: [],
    serviceDue: [],
    serviceOpen: random.mishap(0.05),
    firstUserCheckOwedSince: random.mishap(0.15) ? clock.ago(48) : null,
    recalls: [],
    allowed: [],
    lastUsedAt: maybe(random, 0.6, () => clock.ago(200)),
  };
  return { ...bare, ...troubles(random, clock, [...partsOf(bare), { kind: "cylinder", id: "taken-off" }]) };
}

function troubles(random: Random, clock: Clock, parts: readonly Subject[]): Partial<WorkstationEvidence> {
  const rare = (most: number) => (random.mishap(0.3) ? most : 0);
  return {
    holds: random.list(rare(2), (order) => ({
      id: `hold-${order}`,
      by: "person-1",
      role: random.one(ROLES),
      reason: "smells odd",
      since: clock.ago(40),
    })),
    quarantine: random.list(rare(2), () => ({
      subject: random.one(parts),
      item: random.chance(0.3) ? random.one(ITEM_IDS) : null,
      since: clock.ago(40),
    })),
    faults: random.list(rare(2), (order) => ({
      id: `fault-${order}`,
      text: "screen flickers",
      wouldNotUse: random.chance(0.4),
      lookedAt: random.chance(0.5),
      reportedAt: maybe(random, 0.7, () => clock.ago(10)),
    })),
    serviceDue: random.list(rare(2), (order) => {
      const days = [clock.day(4, 4), clock.day(4, 4), clock.day(4, 4)].sort();
      const [from, due, to] = days as [(typeof days)[0], (typeof days)[0], (typeof days)[0]];
      return { plan: `plan ${order}`, due, window: { from, to } };
    }),
    recalls: random.list(rare(2), (order) => ({
      id: `recall-${order}`,
      decision: random.one(RECALL_DECISIONS),
      condition: random.one([null, "with the second alarm on"]),
    })),
    allowed: random.list(random.chance(0.5) ? 3 : 0, () => ({
      rule: random.one(RULES).id,
      by: random.some(ROLES, 0.6).map((role) => ({ person: `person-${role}`, role })),
      measures: "watch it",
      until: clock.around(24, 240),
      subject: random.chance(0.3) ? random.one(parts) : null,
    })),
    recentFailures: random.list(rare(4), () => {
      const subject = random.one(parts);
      return { item: itemAbout(random, subject), subject, at: clock.ago(200) };
    }),
  };
}
