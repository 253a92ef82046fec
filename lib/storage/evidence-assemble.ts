import type {
  Allowance,
  Check,
  DayList,
  EvidenceEvent,
  FittedAbsorbent,
  FittedCylinder,
  FittedVaporizer,
  Observation,
  Occupancy,
  RoomEvidence,
  WorkstationEvidence,
} from "@/lib/domain/evidence";
import type {
  AbsorbentRow,
  AllowanceRow,
  CheckRow,
  CylinderRow,
  EventRow,
  EvidenceRows,
  FittedRows,
  ObservationRow,
  RoomRow,
  VaporizerRow,
  WorkstationRow,
} from "@/lib/storage/evidence-rows";
import {
  type Instant,
  instant,
  instantAt,
  instantOf,
  localDate,
  localTime,
  type Timestamp,
  timestampOf,
} from "@/lib/units/time";

/** Rows to the domain's words, one function a noun. PostgreSQL writes instants with an offset; evidence writes them with Z. */
const utc = (text: string): Timestamp => timestampOf(instantOf(text));
const dateOrNull = (text: string | null) => (text === null ? null : localDate(text));

export function roomOf(
  row: RoomRow,
  timeZone: string,
  today: Instant,
  vaporFree: EvidenceRows["vapor_free"] = [],
): RoomEvidence {
  const { list } = row;
  const asked = vaporFree.find(({ room_id }) => room_id === row.id) ?? null;
  const at = (time: string | null) =>
    list && time ? timestampOf(instantAt(timeZone, localDate(list.date), localTime(time))) : null;
  return {
    id: row.id,
    name: row.name,
    suite: row.suite,
    zone: row.zone,
    piped: row.piped,
    vacuum: row.vacuum,
    wasteGas: row.waste_gas,
    occupancy: occupancyOf(row, today),
    list: withVaporFree(
      list && {
        firstCase: at(list.first_case),
        end: at(list.ends_at),
        needs: list.needs,
        setUpMinutes: list.set_up_minutes,
      },
      asked && utc(asked.needed_at),
    ),
  };
}

/** A preparation that was asked for is a need of the list; a room without a list gets one for it. */
function withVaporFree(list: DayList | null, neededAt: Timestamp | null): DayList | null {
  if (neededAt === null) return list;
  if (list === null) return { firstCase: neededAt, end: null, needs: ["vapor-free"], setUpMinutes: 0 };
  return list.needs.includes("vapor-free") ? list : { ...list, needs: [...list.needs, "vapor-free"] };
}

/** Closed means closed today: a closing of an earlier check day has ended by itself. */
function occupancyOf({ occupancy, closed_by_template }: RoomRow, today: Instant): Occupancy {
  const otherwise: Occupancy = closed_by_template ? { state: "closed", since: timestampOf(today) } : { state: "idle" };
  if (!occupancy) return otherwise;
  const since = utc(occupancy.from);
  if (occupancy.state === "closed" && instantOf(since) < today) return otherwise;
  return occupancy.state === "closed"
    ? { state: "closed", since }
    : { state: "in-use", since, confirmed: occupancy.confirmed };
}

/** Takes one workstation's rows out of those of several. */
const ofWorkstation =
  (id: string) =>
  <Row extends { workstation_id: string }>(list: readonly Row[]): Row[] =>
    list.filter((item) => item.workstation_id === id);

export function workstationOf(row: WorkstationRow, rows: EvidenceRows): WorkstationEvidence {
  const here = ofWorkstation(row.id);
  return {
    id: row.id,
    tag: row.tag,
    model: row.model,
    fitted: fittedOf(row.id, rows),
    holds: here(rows.holds).map(({ id, by, role, reason, at }) => ({ id, by, role, reason, since: utc(at) })),
    quarantine: [],
    sequestered: false,
    faults: here(rows.faults).map(({ id, text, would_not_use, at }) => ({
      id,
      text,
      wouldNotUse: would_not_use,
      lookedAt: false,
      reportedAt: utc(at),
    })),
    serviceDue: here(rows.service).map((plan) => ({
      plan: plan.plan,
      due: localDate(plan.due),
      window: { from: localDate(plan.window_from), to: localDate(plan.window_to) },
    })),
    serviceOpen: false,
    firstUserCheckOwedSince: null,
    recalls: here(rows.recalls).map(({ name }) => ({ id: name, decision: "not-assessed" })),
    allowed: allowancesOf(here(rows.allowances)),
    recentFailures: here(rows.failures).map(({ item, subject_kind: kind, subject_id: id, observed_at }) => ({
      item,
      subject: { kind, id },
      at: utc(observed_at),
    })),
  };
}

/** The parts of one workstation, out of the rows of several. */
export function fittedOf(workstationId: string, rows: FittedRows): WorkstationEvidence["fitted"] {
  const here = ofWorkstation(workstationId);
  const sensor = here(rows.sensors)[0];
  return {
    cylinders: here(rows.cylinders).map(cylinderOf),
    vaporizers: here(rows.vaporizers).map(vaporizerOf),
    absorbent: here(rows.absorbent).map(absorbentOf),
    oxygenSensor: sensor ? { id: sensor.id, tag: sensor.tag, kind: sensor.kind, from: utc(sensor.from) } : null,
  };
}

/** One allowance a rule: where two people must agree, it holds until the earlier of what they allowed. */
function allowancesOf(rows: readonly AllowanceRow[]): Allowance[] {
  return [...new Set(rows.map(({ rule }) => rule))].map((rule) => {
    const latest = new Map(rows.filter((row) => row.rule === rule).map((row) => [row.role, row]));
    const standing = [...latest.values()];
    return {
      rule,
      by: standing.map(({ person_id, role }) => ({ person: person_id, role })),
      measures: [...new Set(standing.map(({ measures }) => measures))].join("; "),
      until: timestampOf(instant(Math.min(...standing.map(({ until }) => instantOf(until))))),
    };
  });
}

function cylinderOf(row: CylinderRow): FittedCylinder {
  return {
    id: row.id,
    serial: row.serial,
    position: row.position,
    gas: row.gas,
    scheme: row.scheme,
    size: row.size,
    waterCapacityL: row.water_capacity_l,
    ratedContentsL: row.rated_contents_l,
    ratedPressure: { value: row.rated_pressure, unit: row.rated_pressure_unit },
    from: utc(row.from),
    expiry: dateOrNull(row.expiry),
    retestDue: dateOrNull(row.retest_due),
  };
}

function vaporizerOf(row: VaporizerRow): FittedVaporizer {
  const { calibration_due: due, calibration_window_to: windowTo } = row;
  return {
    id: row.id,
    tag: row.tag,
    mount: row.position,
    agent: row.agent,
    filler: row.filler,
    from: utc(row.from),
    calibration: due && windowTo ? { due: localDate(due), windowTo: localDate(windowTo) } : null,
  };
}

function absorbentOf(row: AbsorbentRow): FittedAbsorbent {
  return {
    id: row.id,
    tag: row.tag,
    position: row.position,
    product: {
      name: row.product,
      indicator: row.indicator,
      reverts: row.reverts,
      strongBase: row.strong_base,
      litresPer100g: row.litres_per_100g,
    },
    massG: row.mass_g,
    from: utc(row.from),
  };
}

export function observationOf(row: ObservationRow): Observation {
  return {
    id: row.id,
    item: row.item,
    subject: { kind: row.subject_kind, id: row.subject_id },
    answer: row.answer,
    verdict: row.verdict,
    makersVerdict: row.makers_verdict,
    observedAt: utc(row.observed_at),
    known: row.known,
    by: row.observed_by,
    role: row.observed_role,
    check: row.check_id,
    recordedAt: utc(row.recorded_at),
    supersedes: row.supersedes,
  };
}

export function checkOf(row: CheckRow): Check {
  return {
    id: row.id,
    procedure: row.procedure_id,
    workstation: row.workstation_id,
    kind: row.kind,
    startedAt: utc(row.started_at),
    startedBy: row.started_by,
    signed: row.signed.map((signature) => ({ ...signature, at: utc(signature.at) })),
  };
}

export function eventOf(row: EventRow): EvidenceEvent {
  return {
    id: row.id,
    kind: row.kind,
    subject: { kind: row.subject_kind, id: row.subject_id },
    at: utc(row.at),
    zone: row.zone,
  };
}
