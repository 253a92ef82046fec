import type { Answer } from "@/lib/domain/answer";
import { COLOUR_SHARES, FILL_SHARES } from "@/lib/domain/choices";
import {
  type Check,
  EVIDENCE_SCHEMA,
  type Evidence,
  type EvidenceEvent,
  type Observation,
} from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import { expandProcedure } from "@/lib/domain/procedure/decide";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import { RECHECK } from "@/lib/domain/recheck";
import { RULES } from "@/lib/domain/rules/all";
import { CHECK_KINDS, EVENT_KINDS, type EventKind, GASES, MEANINGS, ROLES } from "@/lib/domain/vocabulary";
import { mostIn } from "@/lib/exchange/judge/number-checks";
import { unitsOf } from "@/lib/exchange/judge/reading-units";
import { type Quantity, quantity, UNITS, type Unit, valueIn } from "@/lib/units/quantity";
import { goodAnswer } from "@/tests/support/ready-room";
import { Random } from "./random";
import { Clock } from "./random-clock";
import { randomFacility, randomRoom } from "./random-place";
import { randomOverrides, randomSettings } from "./random-settings";
import { itemAbout, partsOf, randomWorkstation } from "./random-workstation";

/**
 * One room as it could never have been planned, by a number: every field filled by chance, answers on both sides of every limit,
 * signed or not, events between them, settings changed and switched off.
 */
export function randomEvidence(seed: number): Evidence {
  const random = new Random(seed);
  random.trouble = random.one([0, 0.1, 1]);
  const clock = new Clock(random);
  const facility = randomFacility(random, clock);
  const settings = randomSettings(random);
  const room = !random.mishap(0.08) ? randomRoom(random, clock) : null;
  const workstation = !random.mishap(0.05) ? randomWorkstation(random, clock) : null;
  const place = { facility, settings, room, workstation };
  const questions = expandProcedure(facility.scheme === "US" ? DAILY_US : DAILY_ISO, place);
  const owes = questions.map(({ item, subject }) => ({ item, subject }));
  const subjects: Subject[] = [
    ...(workstation === null ? [] : partsOf(workstation)),
    ...(room === null ? [] : [{ kind: "room" as const, id: room.id }]),
    ...GASES.map((gas) => ({ kind: "pipeline" as const, id: gas })),
  ];
  const checks = random.list(4, (order) => randomCheck(random, clock, order));
  const done = random.chance(1 - 0.4 * random.trouble) ? wellDone(random, clock) : null;
  const good =
    done === null
      ? []
      : questions
          .filter(() => !random.mishap(0.05))
          .map(
            (question, order): Observation => ({
              ...looked(done.startedAt),
              id: `good-${order}`,
              item: question.item,
              subject: question.subject,
              answer: goodAnswer(question, facility.scheme),
              check: done.id,
            }),
          );
  const others = random.list(Math.ceil(8 * random.trouble), (order) =>
    randomObservation(random, clock, order, subjects, checks),
  );
  // Two looks at the same thing in the same moment: only their names tell which one is told.
  const twins = others
    .filter(() => random.chance(0.3))
    .map(
      (one): Observation => ({
        ...one,
        id: `twin-of-${one.id}`,
        answer: randomAnswer(random, one.item),
        supersedes: null,
      }),
    );
  return {
    schema: EVIDENCE_SCHEMA,
    now: clock.now,
    facility,
    settings,
    settingsVersion: random.whole(0, 40),
    room,
    workstation,
    procedure: !random.mishap(0.05)
      ? {
          id: "daily",
          name: "Daily",
          version: 3,
          owes: random.some(owes, 1 - random.trouble * random.one([0, 0, 0.1])),
          settings: randomOverrides(random),
        }
      : null,
    observations: [...good, ...others, ...twins],
    checks: done === null ? checks : [done, ...checks],
    events: random
      .list(random.mishap(0.6) ? 3 : 0, (order) => randomEvent(random, clock, order, subjects))
      .filter((one) => one !== null),
    trends: random.list(3, () => {
      const subject = random.one(subjects);
      const item = itemAbout(random, subject);
      return {
        item,
        subject,
        slope: random.chance(0.8) ? quantity(random.whole(-30, 30), (unitsOf(item) ?? UNITS)[0] ?? "psi") : null,
        crossing: random.chance(0.7) ? clock.day(10, 60) : null,
      };
    }),
  };
}

/** A whole check begun and signed within the last day, confirmed or not. */
function wellDone(random: Random, clock: Clock): Check {
  const startedAt = clock.ago(random.chance(0.7) ? 3 : 24);
  const performed = clock.since(startedAt);
  return {
    id: "check-done",
    procedure: "daily",
    kind: "daily",
    startedAt,
    startedBy: "person-1",
    signed: [
      { by: "person-1", role: random.one(["technician", "provider"] as const), meaning: "performed", at: performed },
      ...(random.chance(0.6)
        ? [{ by: "person-2", role: "provider" as const, meaning: "confirmed" as const, at: clock.since(performed) }]
        : []),
    ],
  };
}

function randomCheck(random: Random, clock: Clock, order: number): Check {
  const startedAt = clock.ago(60);
  return {
    id: `check-${order}`,
    procedure: random.one([null, "daily"]),
    kind: random.one(CHECK_KINDS),
    startedAt,
    startedBy: "person-1",
    signed: random.list(3, () => ({
      by: random.one(["person-1", "person-2"]),
      role: random.one(ROLES),
      meaning: random.one(MEANINGS),
      at: clock.since(startedAt),
    })),
  };
}

const looked = (at: string) => ({
  verdict: "pass" as const,
  makersVerdict: null,
  observedAt: at,
  known: { source: "server" as const },
  by: "person-1",
  role: "technician" as const,
  recordedAt: at,
  supersedes: null,
});

function randomObservation(
  random: Random,
  clock: Clock,
  order: number,
  subjects: readonly Subject[],
  checks: readonly Check[],
): Observation {
  const subject = random.one(subjects);
  const item = itemAbout(random, subject);
  const earliest = clock.ago(70);
  const observedAt = clock.since(earliest);
  const latest = clock.since(observedAt);
  return {
    id: `seen-${order}`,
    item,
    subject,
    answer: randomAnswer(random, item),
    verdict: random.one(["pass", "fail", "noted"] as const),
    makersVerdict: random.one([null, null, "pass", "fail", "noted"] as const),
    observedAt,
    known: random.one([
      { source: "server" as const },
      { source: "device" as const, offsetSeconds: random.whole(-90, 90) },
      { source: "paper" as const, earliest, latest },
    ]),
    by: random.one(["person-1", "person-2"]),
    role: random.one(ROLES),
    check: random.one([null, "check-done", ...checks.map(({ id }) => id), "check-of-another-day"]),
    recordedAt: clock.since(observedAt),
    supersedes: random.chance(0.1) ? `seen-${random.whole(0, 7)}` : null,
  };
}

const limitsOf = (item: ItemId): Quantity[] =>
  RULES.filter(({ items }) => items.includes(item)).flatMap(({ settings }) =>
    Object.values(settings).flatMap(({ default: value, iso }) =>
      [value, iso?.default].filter((one) => typeof one === "object"),
    ),
  );

/** On a limit, a hair or a half beside it, nothing, or very much. */
function randomReading(random: Random, item: ItemId): Quantity {
  const units = unitsOf(item) ?? UNITS;
  const limits = limitsOf(item).filter(({ unit }) => units.includes(unit));
  if (limits.length === 0) return quantity(random.one([0, 1, 21, 50, 100]), random.one(units));
  const limit = random.one(limits);
  const unit: Unit = random.chance(0.5) ? limit.unit : random.one(units);
  const value = (valueIn(limit, unit) ?? limit.value) * random.one([0, 0.5, 0.999, 1, 1.001, 1.5, 3]);
  return quantity(Math.min(value, mostIn(unit)), unit);
}

function randomAnswer(random: Random, item: ItemId): Answer {
  const note = random.chance(0.1) ? { note: "looked twice" } : {};
  const reading = randomReading(random, item);
  if (item === "cylinder-gauge") {
    return { kind: "gauge", reading, openWhenRead: random.chance(0.8), shutAgain: random.chance(0.8), ...note };
  }
  const choices = { "absorbent-colour": COLOUR_SHARES, "vaporizer-fill": FILL_SHARES }[item as string];
  if (choices !== undefined) return { kind: "choice", choice: random.one([...choices.keys()]), ...note };
  switch (random.one(["pass", "pass", "number", "timed"])) {
    case "number":
      return { kind: "number", reading, ...note };
    case "timed":
      return { kind: "timed", seconds: random.one([0, 9, 9.99, 10, 600]), held: random.chance(0.7), ...note };
    default:
      return { kind: "pass", passed: random.chance(0.6), ...note };
  }
}

/** The kinds of thing an event can be about. */
export function subjectKindsOf(kind: EventKind): readonly string[] {
  if (kind === "pipeline-event") return ["pipeline", "room"];
  const rows = RECHECK[kind];
  if (rows === "everything") return ["workstation"];
  const own = rows.filter(({ of }) => of === "same").map(({ item }) => itemOf(item).subject);
  return own.length > 0 ? own : ["workstation", "room"];
}

function randomEvent(random: Random, clock: Clock, order: number, subjects: readonly Subject[]): EvidenceEvent | null {
  const kind = random.one(EVENT_KINDS);
  const possible = subjects.filter((subject) => subjectKindsOf(kind).includes(subject.kind));
  if (possible.length === 0) return null;
  return {
    id: `event-${order}`,
    kind,
    subject: random.one(possible),
    at: clock.ago(60),
    zone: random.one([null, "zone-east"]),
  };
}
