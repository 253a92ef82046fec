import { z } from "zod";
import { EVIDENCE_SCHEMA } from "@/lib/domain/evidence";
import {
  AGENTS,
  CHECK_KINDS,
  DRIVES,
  EVENT_KINDS,
  GASES,
  LEAK_TESTS,
  MEANINGS,
  NEEDS,
  PORTABLE_MONITORS,
  RECALL_DECISIONS,
  ROLES,
  SCHEMES,
  WASTE_GAS,
} from "@/lib/domain/vocabulary";
import { answer, date, itemId, ownItemId, quantity, subject, timestamp } from "@/lib/schemas/common";
import { PRESSURE_UNITS } from "@/lib/units/pressure";
import type { LocalDate } from "@/lib/units/time";

/**
 * The evidence document at the border: strict, so that a field nobody knows is refused by its path. What has a plain meaning when it
 * is left out may be left out: an empty list, nobody's override, not sequestered.
 */
const name = z.string().min(1).max(200);
const day = date.transform((text) => text as LocalDate);
const gas = z.enum(GASES);
const role = z.enum(ROLES);
const verdict = z.enum(["pass", "fail", "noted"]);
const positive = z.number().positive();

const settingValue = z.union([quantity, z.number(), z.boolean(), z.string()]);
const ruleSetting = z.strictObject({
  on: z.boolean(),
  values: z.record(z.string(), settingValue),
  version: z.int(),
  citation: z.string(),
});

const settingOverrides = z.record(z.string(), ruleSetting.extend({ on: z.boolean().nullable().optional() })).optional();

const occupancy = z.discriminatedUnion("state", [
  z.strictObject({ state: z.literal("idle") }),
  z.strictObject({ state: z.literal("in-use"), since: timestamp, confirmed: z.boolean() }),
  z.strictObject({ state: z.literal("closed"), since: timestamp }),
]);

const room = z.strictObject({
  id: name,
  name,
  suite: name,
  zone: name.nullable().default(null),
  piped: z.array(gas),
  vacuum: z.boolean(),
  wasteGas: z.enum(WASTE_GAS),
  occupancy,
  list: z
    .strictObject({
      firstCase: timestamp.nullable(),
      end: timestamp.nullable().default(null),
      needs: z.array(z.enum(NEEDS)).default([]),
      setUpMinutes: z.number().nonnegative().default(0),
    })
    .nullable()
    .default(null),
  portable: z.array(z.enum(PORTABLE_MONITORS)).optional(),
  supplies: z
    .array(z.strictObject({ name, count: z.number().nonnegative(), par: z.number().nonnegative() }))
    .optional(),
});

const model = z.strictObject({
  name,
  drive: z.enum(DRIVES),
  driveGas: z.enum([...GASES, "none"]),
  leakTest: z.enum(LEAK_TESTS),
  oxygenSensor: z.enum(["galvanic", "paramagnetic"]),
  mounts: z.array(name),
  yokes: z.array(z.strictObject({ position: name, gas })),
  selfTestCovers: z.array(itemId).default([]),
  outletSelector: z.boolean().default(false),
  vaporFreeMinutes: z.number().nullable().default(null),
  vaporFreeFilterMinutes: z.number().nullable().optional(),
  settings: settingOverrides,
});

const cylinder = z.strictObject({
  id: name,
  serial: name,
  position: name,
  gas,
  scheme: z.enum(SCHEMES),
  size: name,
  waterCapacityL: positive,
  ratedContentsL: positive,
  ratedPressure: z.strictObject({ value: positive, unit: z.enum(PRESSURE_UNITS) }),
  from: timestamp,
  expiry: day.nullable().default(null),
  retestDue: day.nullable().default(null),
});

const vaporizer = z.strictObject({
  id: name,
  tag: name,
  mount: name,
  agent: z.enum(AGENTS),
  filler: name,
  from: timestamp,
  calibration: z.strictObject({ due: day, windowTo: day }).nullable().default(null),
});

const absorbent = z.strictObject({
  id: name,
  tag: name,
  position: name,
  product: z.strictObject({
    name,
    indicator: z.boolean(),
    reverts: z.boolean(),
    strongBase: z.boolean(),
    litresPer100g: positive,
  }),
  massG: positive,
  from: timestamp,
  dateKnown: z.boolean().optional(),
});

const sensor = z.strictObject({ id: name, tag: name, kind: z.enum(["galvanic", "paramagnetic"]), from: timestamp });

const workstation = z.strictObject({
  id: name,
  tag: name,
  model,
  fitted: z.strictObject({
    cylinders: z.array(cylinder).default([]),
    vaporizers: z.array(vaporizer).default([]),
    absorbent: z.array(absorbent).default([]),
    oxygenSensor: sensor.nullable().default(null),
  }),
  holds: z.array(z.strictObject({ id: name, by: name, role, reason: z.string(), since: timestamp })).default([]),
  quarantine: z.array(z.strictObject({ subject, item: itemId.nullable().optional(), since: timestamp })).default([]),
  sequestered: z.boolean().default(false),
  faults: z
    .array(
      z.strictObject({
        id: name,
        text: z.string(),
        wouldNotUse: z.boolean(),
        lookedAt: z.boolean(),
        reportedAt: timestamp.nullable().optional(),
      }),
    )
    .default([]),
  serviceDue: z
    .array(z.strictObject({ plan: name, due: day, window: z.strictObject({ from: day, to: day }) }))
    .default([]),
  serviceOpen: z.boolean().default(false),
  firstUserCheckOwedSince: timestamp.nullable().default(null),
  recalls: z
    .array(
      z.strictObject({ id: name, decision: z.enum(RECALL_DECISIONS), condition: z.string().nullable().optional() }),
    )
    .default([]),
  allowed: z
    .array(
      z.strictObject({
        rule: name,
        by: z.array(z.strictObject({ person: name, role })),
        measures: z.string(),
        until: timestamp,
        subject: subject.nullable().optional(),
      }),
    )
    .default([]),
  lastUsedAt: timestamp.nullable().optional(),
  recentFailures: z.array(z.strictObject({ item: itemId, subject, at: timestamp })).optional(),
});

const known = z.discriminatedUnion("source", [
  z.strictObject({ source: z.literal("server") }),
  z.strictObject({
    source: z.literal("device"),
    offsetSeconds: z.number(),
    earliest: timestamp.optional(),
    latest: timestamp.optional(),
  }),
  z.strictObject({ source: z.literal("paper"), earliest: timestamp, latest: timestamp }),
]);

const observation = z.strictObject({
  id: name,
  item: itemId,
  subject,
  answer,
  verdict: verdict.default("noted"),
  makersVerdict: verdict.nullable().default(null),
  observedAt: timestamp,
  known: known.default({ source: "server" }),
  by: name,
  role,
  check: name.nullable().default(null),
  recordedAt: timestamp,
  supersedes: name.nullable().default(null),
});

const check = z.strictObject({
  id: name,
  procedure: name.nullable().default(null),
  /** The workstation it was done on; absent or null: the one that stands here. */
  workstation: name.nullable().optional(),
  kind: z.enum(CHECK_KINDS),
  startedAt: timestamp,
  startedBy: name,
  signed: z.array(z.strictObject({ by: name, role, meaning: z.enum(MEANINGS), at: timestamp })),
});

const event = z.strictObject({
  id: name,
  kind: z.enum(EVENT_KINDS),
  subject,
  at: timestamp,
  zone: name.nullable().default(null),
});
const trend = z.strictObject({
  item: itemId,
  subject,
  slope: quantity.nullable(),
  crossing: day.nullable(),
  between: z.strictObject({ from: day, to: day.nullable() }).optional(),
});

export const evidenceDocument = z.strictObject({
  schema: z.literal(EVIDENCE_SCHEMA),
  now: timestamp,
  facility: z.strictObject({ id: name, timeZone: name, scheme: z.enum(SCHEMES), pressureUnit: z.enum(PRESSURE_UNITS) }),
  settings: z.record(z.string(), ruleSetting).default({}),
  settingsVersion: z.int().nonnegative().default(0),
  room: room.nullable(),
  workstation: workstation.nullable(),
  procedure: z
    .strictObject({
      id: name,
      name,
      version: z.int(),
      owes: z.array(z.strictObject({ item: itemId, subject, since: timestamp.optional() })),
      own: z
        .array(
          z.strictObject({
            item: ownItemId,
            failing: z.enum(["stops", "due"]),
            atLeast: quantity.optional(),
            atMost: quantity.optional(),
          }),
        )
        .optional(),
      settings: settingOverrides,
    })
    .nullable()
    .default(null),
  observations: z.array(observation).default([]),
  checks: z.array(check).default([]),
  events: z.array(event).default([]),
  trends: z.array(trend).default([]),
});
