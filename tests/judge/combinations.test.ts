import { describe, expect, it } from "vitest";
import type { Evidence, Occupancy } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import {
  about,
  answered,
  bad,
  chosen,
  minutesLater,
  reading,
  unanswered,
  withRoom,
  withValues,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { NEEDS, type Need } from "@/lib/domain/vocabulary";
import { quantity } from "@/lib/units/quantity";
import { readyRoom } from "@/tests/support/ready-room";
import { type Occupied, outcomeOf, type Trouble } from "./section-six";

/** One thing wrong with the ready room, and what an outsider would say of it. */
interface Wrong extends Trouble {
  readonly name: string;
  readonly make: (ready: Evidence) => Evidence;
}

const WRONGS: readonly Wrong[] = [
  {
    name: "sequestered",
    wrong: "out",
    rule: "withdrawn",
    make: (room) => withWorkstation(room, () => ({ sequestered: true })),
  },
  {
    name: "no self-inflating bag",
    wrong: "stops",
    rule: "self-inflating-bag",
    make: (room) => answered(room, "self-inflating-bag", bad),
  },
  {
    name: "held",
    wrong: "stops",
    rule: "held",
    make: (room) =>
      withWorkstation(room, () => ({
        holds: [{ id: "hold", by: "somebody", role: "technician", reason: "smells odd", since: room.now }],
      })),
  },
  {
    name: "oxygen pipeline at 30 psi",
    wrong: "stops",
    rule: "oxygen-pipeline",
    supply: true,
    make: (room) => answered(room, "pipeline-pressure", reading(30, "psi"), about("oxygen")),
  },
  {
    name: "another gas from the wall",
    wrong: "stops",
    rule: "pipeline-identity",
    supply: true,
    make: (room) => answered(room, "pipeline-identity", bad, about("oxygen")),
  },
  { name: "APL valve not looked at", wrong: "owed", rule: "not-checked", make: (room) => unanswered(room, "apl") },
  {
    name: "no air pipeline",
    wrong: "limits",
    rule: "air-pipeline",
    takes: [],
    make: (room) => answered(room, "pipeline-pressure", reading(20, "psi"), about("air")),
  },
  {
    name: "no nitrous oxide pipeline",
    wrong: "limits",
    rule: "nitrous-oxide-pipeline",
    takes: ["nitrous-oxide"],
    make: (room) => answered(room, "pipeline-pressure", reading(20, "psi"), about("nitrous-oxide")),
  },
  {
    name: "no agent monitor",
    wrong: "limits",
    rule: "agent-monitor",
    takes: ["volatile"],
    make: (room) => answered(room, "agent-monitor", bad),
  },
  {
    name: "no auxiliary oxygen",
    wrong: "limits",
    rule: "auxiliary-oxygen",
    takes: ["sedation"],
    make: (room) => answered(room, "auxiliary-oxygen", bad),
  },
  {
    name: "weak extraction",
    wrong: "limits",
    rule: "scavenging-extraction",
    takes: ["volatile", "nitrous-oxide"],
    make: (room) => answered(room, "scavenging-extraction", bad),
  },
  {
    name: "a leak that allows no low flow",
    wrong: "limits",
    rule: "breathing-leak",
    takes: ["low-flow"],
    make: (room) =>
      withValues(answered(room, "breathing-leak", reading(250, "mL/min")), "breathing-leak", {
        noLowFlowUpTo: quantity(300, "mL/min"),
      }),
  },
  { name: "battery flat", wrong: "limits", rule: "battery", takes: [], make: (room) => answered(room, "battery", bad) },
  {
    name: "vaporizers a quarter full",
    wrong: "due",
    rule: "vaporizer-fill",
    make: (room) => answered(room, "vaporizer-fill", chosen("quarter")),
  },
  {
    name: "oxygen pipeline at 47 psi",
    wrong: "note",
    rule: "oxygen-pipeline",
    make: (room) => answered(room, "pipeline-pressure", reading(47, "psi"), about("oxygen")),
  },
];

const OCCUPANCIES: Readonly<Record<Occupied, (room: Evidence) => Occupancy>> = {
  idle: () => ({ state: "idle" }),
  running: (room) => ({ state: "in-use", since: minutesLater(room, -5), confirmed: true }),
  inferred: (room) => ({ state: "in-use", since: minutesLater(room, -5), confirmed: false }),
  closed: (room) => ({ state: "closed", since: minutesLater(room, -5) }),
};

/** No list, a list without needs, each need alone, and all of them. */
const NEEDED: readonly (readonly Need[] | null)[] = [null, [], ...NEEDS.map((need) => [need]), NEEDS];

const ready = readyRoom("US");

function placed(room: Evidence, occupied: Occupied, needs: readonly Need[] | null): Evidence {
  const list = needs === null ? null : { firstCase: minutesLater(room, 65), end: null, needs, setUpMinutes: 0 };
  return withRoom(room, { occupancy: OCCUPANCIES[occupied](room), list });
}

/** The ready room carries vaporizers, so that it is never vapor-free: a list that needs this cannot have it. */
const NOT_VAPOR_FREE: Trouble = { wrong: "limits", rule: "vapor-free-preparation", takes: ["vapor-free"] };
const withNeeds = (troubles: readonly Trouble[], needs: readonly Need[] | null): readonly Trouble[] =>
  needs?.includes("vapor-free") ? [...troubles, NOT_VAPOR_FREE] : troubles;

function expectOutcome(troubles: readonly Wrong[]): void {
  const room = troubles.reduce((worse, { make }) => make(worse), ready);
  for (const occupied of Object.keys(OCCUPANCIES) as Occupied[]) {
    for (const needs of NEEDED) {
      const { state, readyForList, whenInUse, decideBy, reasons } = judge(placed(room, occupied, needs));
      const found = { state, readyForList, whenInUse, hasDecideBy: decideBy !== null };
      const where = `${occupied}, needs ${needs === null ? "no list" : needs.join(" ")}`;
      expect(found, where).toEqual(outcomeOf(withNeeds(troubles, needs), occupied, needs));
      for (const { rule } of troubles)
        expect(
          reasons.map((one) => one.rule),
          where,
        ).toContain(rule);
    }
  }
}

/** Two that speak of the same reading cannot stand together. */
const together = (one: Wrong, other: Wrong): boolean =>
  one !== other && !(one.name.startsWith("oxygen pipeline") && other.name.startsWith("oxygen pipeline"));
const PAIRS = WRONGS.flatMap((one, place) =>
  WRONGS.slice(place + 1)
    .filter((other) => together(one, other))
    .map((other) => [`${one.name} and ${other.name}`, [one, other]] as const),
);

describe("whatever is wrong, whoever is in the room and whatever the list needs", () => {
  it("nothing wrong", () => expectOutcome([]));
  it.each(WRONGS.map((one) => [one.name, one] as const))("%s", (_name, one) => expectOutcome([one]));
  it.each(PAIRS)("%s", (_name, pair) => expectOutcome(pair));
  it("everything at once", () => expectOutcome(WRONGS.filter(({ name }) => name !== "oxygen pipeline at 47 psi")));

  it("tries every severity", () => {
    expect(new Set(WRONGS.map(({ wrong }) => wrong))).toEqual(
      new Set(["out", "stops", "owed", "limits", "due", "note"]),
    );
  });
});
