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
  ROLES,
  SCHEMES,
  WASTE_GAS,
} from "@/lib/domain/vocabulary";
import { answer, date, itemId, quantity, subject, timestamp } from "@/lib/schemas/common";
import { PRESSURE_UNITS } from "@/lib/units/pressure";
import type { LocalDate } from "@/lib/units/time";

/** The evidence document at the border: strict, so that a field nobody knows is refused by its path. */
const name = z.string().min(1).max(200);
const day = z.custom<LocalDate>((text) => date.safeParse(text).success, "must be a date such as 2026-11-25");
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

const occupancy = z.discriminatedUnion("state", [
  z.strictObject({ state: z.literal("idle") }),
  z.strictObject({ state: z.literal("in-use"), since: timestamp, confirmed: z.boolean() }),
  z.strictObject({ state: z.literal("closed"), since: timestamp }),
]);

const room = z.strictObject({
  id: name,
  name,
  suite: name,
  zone: name.nullable(),
  piped: z.array(gas),
  vacuum: z.boolean(),
  wasteGas: z.enum(WASTE_GAS),
  occupancy,
  list: z
    .strictObject({
      firstCase: timestamp.nullable(),
      end: timestamp.nullable(),
      needs: z.array(z.enum(NEEDS)),
      setUpMinutes: z.number().nonnegative(),
    })
    .nullable(),
});

const model = z.strictObject({
  name,
  drive: z.enum(DRIVES),
  driveGas: z.enum([...GASES, "none"]),
  leakTest: z.enum(LEAK_TESTS),
  oxygenSensor: z.enum(["galvanic", "paramagnetic"]),
  mounts: z.array(name),
  yokes: z.array(z.strictObject({ position: name, gas })),
  selfTestCovers: z.array(itemId),
  outletSelector: z.boolean(),
  vaporFreeMinutes: z.number().nullable(),
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
  expiry: day.nullable(),
  retestDue: day.nullable(),
});

const vaporizer = z.strictObject({
  id: name,
  tag: name,
  mount: name,
  agent: z.enum(AGENTS),
  filler: name,
  from: timestamp,
  calibration: z.strictObject({ due: day, windowTo: day }).nullable(),
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
});

const sensor = z.strictObject({ id: name, tag: name, kind: z.enum(["galvanic", "paramagnetic"]), from: timestamp });

const workstation = z.strictObject({
  id: name,
  tag: name,
  model,
  fitted: z.strictObject({
    cylinders: z.array(cylinder),
    vaporizers: z.array(vaporizer),
    absorbent: z.array(absorbent),
    oxygenSensor: sensor.nullable(),
  }),
  holds: z.array(z.strictObject({ id: name, by: name, role, reason: z.string(), since: timestamp })),
  quarantine: z.array(z.strictObject({ subject, since: timestamp })),
  sequestered: z.boolean(),
  faults: z.array(z.strictObject({ id: name, text: z.string(), wouldNotUse: z.boolean(), lookedAt: z.boolean() })),
  serviceDue: z.array(z.strictObject({ plan: name, due: day, window: z.strictObject({ from: day, to: day }) })),
  serviceOpen: z.boolean(),
  firstUserCheckOwedSince: timestamp.nullable(),
  recalls: z.array(z.strictObject({ id: name, decision: z.string() })),
  allowed: z.array(
    z.strictObject({
      rule: name,
      by: z.array(z.strictObject({ person: name, role })),
      measures: z.string(),
      until: timestamp,
    }),
  ),
});

const known = z.discriminatedUnion("source", [
  z.strictObject({ source: z.literal("server") }),
  z.strictObject({ source: z.literal("device"), offsetSeconds: z.number() }),
  z.strictObject({ source: z.literal("paper"), earliest: timestamp, latest: timestamp }),
]);

const observation = z.strictObject({
  id: name,
  item: itemId,
  subject,
  answer,
  verdict,
  makersVerdict: verdict.nullable(),
  observedAt: timestamp,
  known,
  by: name,
  role,
  check: name.nullable(),
  recordedAt: timestamp,
  supersedes: name.nullable(),
});

const check = z.strictObject({
  id: name,
  procedure: name.nullable(),
  kind: z.enum(CHECK_KINDS),
  startedAt: timestamp,
  startedBy: name,
  signed: z.array(z.strictObject({ by: name, role, meaning: z.enum(MEANINGS), at: timestamp })),
});

const event = z.strictObject({ id: name, kind: z.enum(EVENT_KINDS), subject, at: timestamp, zone: name.nullable() });
const trend = z.strictObject({ item: itemId, subject, slope: quantity.nullable(), crossing: day.nullable() });

export const evidenceDocument = z.strictObject({
  schema: z.literal(EVIDENCE_SCHEMA),
  now: timestamp,
  facility: z.strictObject({ id: name, timeZone: name, scheme: z.enum(SCHEMES), pressureUnit: z.enum(PRESSURE_UNITS) }),
  settings: z.record(z.string(), ruleSetting),
  settingsVersion: z.int().nonnegative(),
  room: room.nullable(),
  workstation: workstation.nullable(),
  procedure: z
    .strictObject({ id: name, name, version: z.int(), owes: z.array(z.strictObject({ item: itemId, subject })) })
    .nullable(),
  observations: z.array(observation),
  checks: z.array(check),
  events: z.array(event),
  trends: z.array(trend),
});
