import type { Answer } from "@/lib/domain/answer";
import {
  EVIDENCE_SCHEMA,
  type Evidence,
  type FittedCylinder,
  type Observation,
  type RoomEvidence,
  type WorkstationEvidence,
} from "@/lib/domain/evidence";
import { NOTHING_ON_RECORD } from "@/lib/domain/nothing-on-record";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import type { Procedure } from "@/lib/domain/procedure/model";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import type { Gas, Scheme } from "@/lib/domain/vocabulary";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { localDate } from "@/lib/units/time";

/**
 * A room whose workstation was checked this morning and is ready: the ground on which examples and tests change one thing.
 * 3 March 2026, in the facility's own time: fitted since February, checked 05:30 to 05:45, confirmed 06:00, now 06:10, first case 07:15.
 */
const ZONES = {
  US: { timeZone: "America/Chicago", hoursBehind: 6 },
  ISO: { timeZone: "Europe/London", hoursBehind: 0 },
} as const;

/** The instant at which the ready room's clocks show that time on its day; neither zone changes its clocks in that week. */
export function readyTime(scheme: Scheme, localTime: string): string {
  const [hour = 0, minute = 0] = localTime.split(":").map(Number);
  return new Date(Date.UTC(2026, 2, 3, hour + ZONES[scheme].hoursBehind, minute)).toISOString();
}

export const procedureFor = (scheme: Scheme): Procedure => (scheme === "US" ? DAILY_US : DAILY_ISO);

const FITTED_SINCE = "2026-02-02T15:00:00.000Z";

const GOOD_READINGS: Partial<Record<CheckItem["item"], Record<Scheme, Quantity>>> = {
  suction: { US: quantity(400, "mmHg"), ISO: quantity(65, "kPa") },
  "cylinder-gauge": { US: quantity(1900, "psi"), ISO: quantity(130, "bar") },
  "pipeline-pressure": { US: quantity(52, "psi"), ISO: quantity(4.2, "bar") },
  "oxygen-in-air": { US: quantity(21, "%"), ISO: quantity(21, "%") },
  "oxygen-after-flush": { US: quantity(98, "%"), ISO: quantity(98, "%") },
  "low-pressure-leak": { US: quantity(20, "mL/min"), ISO: quantity(20, "mL/min") },
  "breathing-leak": { US: quantity(60, "mL/min"), ISO: quantity(60, "mL/min") },
};
const GOOD_CHOICES: Partial<Record<CheckItem["item"], string>> = {
  "vaporizer-fill": "full",
  "absorbent-colour": "none",
};

/** Full of liquid at the temperature of a room. */
const NITROUS_OXIDE: Record<Scheme, Quantity> = { US: quantity(745, "psi"), ISO: quantity(44, "bar") };

/** An answer that holds by every shipped limit. */
export function goodAnswer(question: Pick<CheckItem, "item" | "form" | "subject">, scheme: Scheme): Answer {
  const { form, item, subject } = question;
  const gauge = subject.id === "cylinder-n2o" ? NITROUS_OXIDE[scheme] : null;
  const reading = gauge ?? GOOD_READINGS[item]?.[scheme] ?? quantity(0, form.kind === "number" ? form.unit : "psi");
  switch (form.kind) {
    case "pass":
      return { kind: "pass", passed: true };
    case "number":
      return { kind: "number", reading };
    case "gauge":
      return { kind: "gauge", reading, openWhenRead: true, shutAgain: true };
    case "choice":
      return { kind: "choice", choice: GOOD_CHOICES[item] ?? "none" };
    case "timed":
      return { kind: "timed", seconds: form.seconds + 4, held: true };
  }
}

export const TECHNICIAN = "person-technician";
export const PROVIDER = "person-provider";
export const CHECK_ID = "check-daily";

export function readyRoom(scheme: Scheme = "US"): Evidence {
  const facility = {
    id: "facility-1",
    timeZone: ZONES[scheme].timeZone,
    scheme,
    pressureUnit: scheme === "US" ? "psi" : "bar",
  } as const;
  const place = { facility, settings: {}, room: roomOf(scheme), workstation: workstationOf(scheme) };
  const procedure = procedureFor(scheme);
  const questions = expandProcedure(procedure, place);
  return {
    schema: EVIDENCE_SCHEMA,
    now: readyTime(scheme, "06:10"),
    facility,
    settings: {},
    settingsVersion: 1,
    room: place.room,
    workstation: place.workstation,
    procedure: {
      id: procedure.id,
      name: procedure.name,
      version: procedure.version,
      owes: questions.map(({ item, subject }) => ({ item, subject })),
    },
    observations: questions.map((question, order) => goodObservation(question, order, scheme)),
    checks: [
      {
        id: CHECK_ID,
        procedure: procedure.id,
        kind: "daily",
        startedAt: readyTime(scheme, "05:30"),
        startedBy: TECHNICIAN,
        signed: [
          { by: TECHNICIAN, role: "technician", meaning: "performed", at: readyTime(scheme, "05:45") },
          { by: PROVIDER, role: "provider", meaning: "confirmed", at: readyTime(scheme, "06:00") },
        ],
      },
    ],
    events: [],
    trends: [],
  };
}

function goodObservation(question: CheckItem, order: number, scheme: Scheme): Observation {
  const at = readyTime(scheme, "05:40");
  return {
    id: `observation-${String(order).padStart(2, "0")}`,
    item: question.item,
    subject: question.subject,
    answer: goodAnswer(question, scheme),
    verdict: "pass",
    makersVerdict: null,
    observedAt: at,
    known: { source: "server" },
    by: TECHNICIAN,
    role: "technician",
    check: CHECK_ID,
    recordedAt: at,
    supersedes: null,
  };
}

function roomOf(scheme: Scheme): RoomEvidence {
  return {
    id: "room-a1",
    name: "A1",
    suite: "Main",
    zone: "North",
    piped: ["oxygen", "air", "nitrous-oxide"],
    vacuum: true,
    wasteGas: "active",
    occupancy: { state: "idle" },
    list: {
      firstCase: readyTime(scheme, "07:15"),
      end: readyTime(scheme, "15:30"),
      needs: ["volatile", "mechanical-ventilation"],
      setUpMinutes: 15,
    },
  };
}

function workstationOf(scheme: Scheme): WorkstationEvidence {
  return {
    id: "workstation-1",
    tag: "W-001",
    model: {
      name: "Harbor 3",
      drive: "ascending-bellows",
      driveGas: "oxygen",
      leakTest: "bulb",
      oxygenSensor: "galvanic",
      mounts: ["1", "2"],
      yokes: [
        { position: "1", gas: "oxygen" },
        { position: "2", gas: "nitrous-oxide" },
      ],
      selfTestCovers: [],
      outletSelector: false,
      vaporFreeMinutes: 60,
    },
    fitted: {
      cylinders: [
        cylinder("cylinder-o2", "1", "oxygen", scheme),
        cylinder("cylinder-n2o", "2", "nitrous-oxide", scheme),
      ],
      vaporizers: [vaporizer("vaporizer-sevo", "1", "sevoflurane"), vaporizer("vaporizer-des", "2", "desflurane")],
      absorbent: [
        {
          id: "absorbent-1",
          tag: "AB-1",
          position: "1",
          product: { name: "Lime A", indicator: true, reverts: false, strongBase: false, litresPer100g: 12 },
          massG: 1000,
          from: FITTED_SINCE,
        },
      ],
      oxygenSensor: { id: "sensor-1", tag: "OS-1", kind: "galvanic", from: FITTED_SINCE },
    },
    ...NOTHING_ON_RECORD,
  };
}

function cylinder(id: string, position: string, gas: "oxygen" | "nitrous-oxide", scheme: Scheme) {
  const oxygen = gas === "oxygen";
  const us = scheme === "US";
  return {
    id,
    serial: id.toUpperCase(),
    position,
    gas,
    scheme,
    size: "E",
    waterCapacityL: us ? 4.8 : 4.68,
    ratedContentsL: oxygen ? (us ? 660 : 680) : us ? 1590 : 1800,
    ratedPressure: us ? quantity(oxygen ? 1900 : 745, "psi") : quantity(oxygen ? 137 : 44, "bar"),
    from: FITTED_SINCE,
    expiry: null,
    retestDue: null,
  } as const;
}

function vaporizer(id: string, mount: string, agent: "sevoflurane" | "desflurane") {
  return {
    id,
    tag: id.toUpperCase(),
    mount,
    agent,
    filler: "keyed",
    from: FITTED_SINCE,
    calibration: { due: localDate("2026-09-01"), windowTo: localDate("2026-10-01") },
  } as const;
}

/** The first cylinder of a gas on the ready workstation. */
export function cylinderOf({ workstation }: Evidence, gas: Gas): FittedCylinder {
  const found = workstation?.fitted.cylinders.find((one) => one.gas === gas);
  if (found === undefined) throw new Error(`no cylinder of ${gas} is fitted`);
  return found;
}
