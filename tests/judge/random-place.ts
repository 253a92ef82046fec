import type { Evidence, RoomEvidence } from "@/lib/domain/evidence";
import { GASES, NEEDS, PORTABLE_MONITORS, type Scheme, WASTE_GAS } from "@/lib/domain/vocabulary";
import { PRESSURE_UNITS } from "@/lib/units/pressure";
import type { Random } from "./random";
import { type Clock, maybe } from "./random-clock";

const MINUTE = 60_000;

export function randomFacility(random: Random, { timeZone }: Clock): Evidence["facility"] {
  const scheme: Scheme = random.chance(0.6) ? "US" : "ISO";
  const usual = scheme === "US" ? "psi" : random.one(["bar", "kPa"] as const);
  return { id: "facility", timeZone, scheme, pressureUnit: random.chance(0.9) ? usual : random.one(PRESSURE_UNITS) };
}

export function randomRoom(random: Random, clock: Clock): RoomEvidence {
  const firstCase = maybe(random, 0.8, () => clock.around(6, 10));
  const end = maybe(random, 0.6, () => new Date(Date.parse(firstCase ?? clock.now) + random.whole(0, 600) * MINUTE));
  return {
    id: "room",
    name: "Q 4",
    suite: "East",
    zone: random.one([null, "zone-east"]),
    piped: random.some(GASES, 0.7),
    vacuum: random.chance(0.9),
    wasteGas: random.one(WASTE_GAS),
    occupancy: random.one([
      { state: "idle" as const },
      { state: "in-use" as const, since: clock.ago(30), confirmed: random.chance(0.6) },
      { state: "closed" as const, since: clock.ago(30) },
    ]),
    list: maybe(random, 0.8, () => ({
      firstCase,
      end: end === null ? null : end.toISOString(),
      needs: random.some(NEEDS, 0.4),
      setUpMinutes: random.whole(0, 45),
    })),
    portable: random.some(PORTABLE_MONITORS, 0.2),
    supplies: random.list(2, (order) => ({
      name: `supply ${order}`,
      count: random.whole(0, 9),
      par: random.whole(0, 9),
    })),
  };
}
