import fc from "fast-check";
import type { Evidence, EvidenceEvent, Observation } from "@/lib/domain/evidence";
import { bad, chosen, gauge, good, reading, timed } from "@/lib/domain/rules/examples";
import { CHECK_KINDS, EVENT_KINDS, MEANINGS, PORTABLE_MONITORS, RECALL_DECISIONS } from "@/lib/domain/vocabulary";
import { localDate } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

/**
 * Rooms as a careless week might leave them: answers good and bad, signed and not, events at any time, holds, allowances,
 * service dates, a case or none. Everything happens within three days of the ready room's own moment.
 */
const READY = readyRoom("US");
const NOW = Date.parse(READY.now);
const HOUR = 3_600_000;

const near = (before: number, after: number) =>
  fc.integer({ min: -before * 12, max: after * 12 }).map((fives) => new Date(NOW + fives * (HOUR / 12)).toISOString());

const day = fc
  .integer({ min: -3, max: 3 })
  .map((days) => localDate(new Date(NOW + days * 24 * HOUR).toISOString().slice(0, 10)));

const answerOf = (one: Observation) => {
  switch (one.answer.kind) {
    case "pass":
      return fc.constantFrom(good, bad);
    case "number":
      return fc
        .constantFrom(0, 20, 21, 40, 44.9, 47, 52, 58, 95, 160, 400)
        .map((value) => reading(value, one.answer.kind === "number" ? one.answer.reading.unit : "psi"));
    case "gauge":
      return fc
        .record({ value: fc.constantFrom(0, 640, 999, 1000, 1150, 1900), open: fc.boolean(), shutAgain: fc.boolean() })
        .map(({ value, open, shutAgain }) => gauge(value, "psi", { open, shutAgain }));
    case "choice":
      return fc.constantFrom("none", "quarter", "half", "two-thirds", "all", "empty", "full").map(chosen);
    case "timed":
      return fc
        .record({ seconds: fc.constantFrom(3, 9, 10, 14), held: fc.boolean() })
        .map(({ seconds, held }) => timed(seconds, held));
  }
};

const CHECK_IDS = ["check-a", "check-b", "check-c"] as const;

const checks = fc.tuple(
  ...CHECK_IDS.map((id) =>
    fc.record({
      id: fc.constant(id as string),
      procedure: fc.constant(null),
      kind: fc.constantFrom(...CHECK_KINDS),
      startedAt: near(48, 0),
      startedBy: fc.constant("somebody"),
      signed: fc.array(
        fc.record({
          by: fc.constantFrom("somebody", "anybody"),
          role: fc.constantFrom("technician" as const, "provider" as const),
          meaning: fc.constantFrom(...MEANINGS),
          at: near(48, 0),
        }),
        { maxLength: 3 },
      ),
    }),
  ),
);

const observation = fc
  .constantFrom(...READY.observations)
  .chain((one) =>
    fc.record({
      one: fc.constant(one),
      answer: answerOf(one),
      observedAt: near(60, 0),
      check: fc.constantFrom<string | null>(...CHECK_IDS, "check-daily", null),
      paper: fc.boolean(),
      late: fc.integer({ min: 0, max: 60 }),
    }),
  )
  .map(({ one, answer, observedAt, check, paper, late }): Observation => {
    const later = new Date(Date.parse(observedAt) + late * 60_000).toISOString();
    return {
      ...one,
      answer,
      check,
      observedAt,
      recordedAt: later,
      known: paper ? { source: "paper", earliest: observedAt, latest: later } : { source: "server" },
    };
  });

const PARTS = [
  { kind: "cylinder", id: "cylinder-o2" },
  { kind: "vaporizer", id: "vaporizer-sevo" },
  { kind: "absorbent", id: "absorbent-1" },
  { kind: "oxygen-sensor", id: "sensor-1" },
  { kind: "workstation", id: "workstation-1" },
  { kind: "pipeline", id: "oxygen" },
  { kind: "room", id: "room-a1" },
] as const;

const event = fc.record({
  kind: fc.constantFrom(...EVENT_KINDS),
  subject: fc.constantFrom(...PARTS),
  at: near(48, 0),
  zone: fc.constant(null),
});

const allowance = fc.record({
  rule: fc.constantFrom("vaporizer-lost", "service-late", "air-pipeline", "scavenging-extraction"),
  by: fc.constant([
    { person: "a", role: "charge-provider" as const },
    { person: "b", role: "biomedical-engineer" as const },
    { person: "c", role: "manager" as const },
  ]),
  measures: fc.constant("watch it"),
  until: near(24, 48),
});

const occupancy = fc.oneof(
  fc.constant({ state: "idle" as const }),
  fc.record({ state: fc.constant("in-use" as const), since: near(24, 0), confirmed: fc.boolean() }),
  fc.record({ state: fc.constant("closed" as const), since: near(24, 0) }),
);

const WORKSTATION = { kind: "workstation", id: "workstation-1" } as const;

/** What is known of the workstation and its room besides looks and events. */
const records = fc.record({
  portable: fc.subarray([...PORTABLE_MONITORS]),
  supplies: fc.array(fc.record({ name: fc.constantFrom("circuits", "filters"), count: fc.nat(5), par: fc.nat(5) }), {
    maxLength: 2,
  }),
  faults: fc.array(
    fc.record({
      id: fc.constantFrom("fault-1", "fault-2"),
      text: fc.constantFrom("flickers", "smells"),
      wouldNotUse: fc.boolean(),
      lookedAt: fc.boolean(),
      reportedAt: fc.option(near(3, 0)),
    }),
    { maxLength: 1 },
  ),
  recalls: fc.array(
    fc.record({ id: fc.constant("R-1"), decision: fc.constantFrom(...RECALL_DECISIONS), condition: fc.constant(null) }),
    { maxLength: 1 },
  ),
  quarantine: fc.array(
    fc.record({
      subject: fc.constantFrom(WORKSTATION, PARTS[1], PARTS[2], PARTS[3]),
      item: fc.constant(null),
      since: near(48, 0),
    }),
    { maxLength: 1 },
  ),
  quarantinedItem: fc.option(fc.constantFrom("auxiliary-oxygen", "ventilator", "battery" as const), { freq: 5 }),
  lastUsedAt: fc.option(near(96, 0)),
  recentFailures: fc.array(
    fc.record({
      item: fc.constantFrom("breathing-leak", "valves" as const),
      subject: fc.constant(WORKSTATION),
      at: near(200, 0),
    }),
    { maxLength: 4 },
  ),
  trends: fc.array(
    fc.record({
      item: fc.constantFrom("breathing-leak", "suction" as const),
      subject: fc.constant(WORKSTATION),
      slope: fc.constant(null),
      crossing: fc.option(
        fc
          .integer({ min: 10, max: 20 })
          .map((days) => localDate(new Date(NOW + days * 24 * HOUR).toISOString().slice(0, 10))),
      ),
    }),
    { maxLength: 1 },
  ),
  strongBase: fc.boolean(),
  reverts: fc.boolean(),
  retestDue: fc.option(day),
  expiry: fc.option(day),
});

export const arbitraryEvidence: fc.Arbitrary<Evidence> = fc
  .record({
    keep: fc.boolean(),
    records: fc.option(records),
    checks,
    observations: fc.array(observation, { maxLength: 12 }),
    events: fc.array(event, { maxLength: 3 }),
    allowed: fc.array(allowance, { maxLength: 3 }),
    service: fc.array(fc.record({ due: day, from: day, to: day }), { maxLength: 2 }),
    calibrations: fc.tuple(day, day),
    occupancy,
    firstCase: fc.option(near(4, 12)),
    held: fc.boolean(),
    firstUser: fc.option(near(24, 0)),
    fittedFrom: near(72, 0),
  })
  .map((drawn): Evidence => {
    const { room, workstation } = READY;
    if (room === null || workstation === null) throw new Error("the ready room is whole");
    const numbered = drawn.observations.map((one, order) => ({ ...one, id: `drawn-${order}` }));
    const [first, ...cylinders] = workstation.fitted.cylinders;
    return {
      ...READY,
      observations: [...(drawn.keep ? READY.observations : []), ...numbered],
      checks: [...(drawn.keep ? READY.checks : []), ...drawn.checks],
      events: drawn.events.map((one, order): EvidenceEvent => ({ ...one, id: `event-${order}` })),
      room: {
        ...room,
        portable: drawn.records?.portable ?? [],
        supplies: drawn.records?.supplies ?? [],
        occupancy: drawn.occupancy,
        list: room.list && { ...room.list, firstCase: drawn.firstCase },
      },
      trends: drawn.records?.trends ?? [],
      workstation: {
        ...workstation,
        ...(drawn.records === null ? {} : recorded(drawn.records)),
        allowed: drawn.allowed,
        firstUserCheckOwedSince: drawn.firstUser,
        holds: drawn.held
          ? [{ id: "hold", by: "somebody", role: "technician", reason: "noise", since: READY.now }]
          : [],
        serviceDue: drawn.service.map(({ due, from, to }) => ({ plan: "annual", due, window: { from, to } })),
        fitted: {
          ...workstation.fitted,
          absorbent: workstation.fitted.absorbent.map((one) => ({
            ...one,
            product: {
              ...one.product,
              strongBase: drawn.records?.strongBase ?? false,
              reverts: drawn.records?.reverts ?? false,
            },
          })),
          cylinders: first
            ? [
                {
                  ...first,
                  from: drawn.fittedFrom,
                  retestDue: drawn.records?.retestDue ?? null,
                  expiry: drawn.records?.expiry ?? null,
                },
                ...cylinders,
              ]
            : cylinders,
          // Not all on one day: one agent may go while another stays.
          vaporizers: workstation.fitted.vaporizers.map((one, order) => {
            const windowTo = drawn.calibrations[order] ?? drawn.calibrations[0];
            return { ...one, calibration: { due: windowTo, windowTo } };
          }),
        },
      },
    };
  });

type Records = typeof records extends fc.Arbitrary<infer Drawn> ? Drawn : never;

function recorded({ faults, recalls, quarantine, quarantinedItem, lastUsedAt, recentFailures }: Records) {
  const ofItem = quarantinedItem === null ? [] : [{ subject: WORKSTATION, item: quarantinedItem, since: READY.now }];
  return { faults, recalls, quarantine: [...quarantine, ...ofItem], lastUsedAt, recentFailures };
}
