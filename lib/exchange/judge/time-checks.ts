import type { Evidence, Known } from "@/lib/domain/evidence";
import type { Timestamp } from "@/lib/units/time";
import { type DocumentProblem, pathOf, type Step } from "./problem";

/** One moment of the document and where it stands. */
interface Moment {
  readonly path: readonly Step[];
  readonly at: Timestamp;
}

/** Zone data and calendars are asked about every moment; what lies outside is a slip of the pen. */
const EARLIEST_YEAR = 1900;
const LATEST_YEAR = 2999;

/** What the judge is told has happened by `now`; only what is planned or allowed may lie ahead. */
export function timeProblems(evidence: Evidence): DocumentProblem[] {
  const now = Date.parse(evidence.now);
  const past = [...recordMoments(evidence), ...placeMoments(evidence)];
  const every = [{ path: ["now"], at: evidence.now }, ...past, ...plannedMoments(evidence)];
  return [
    ...every.flatMap(outsideCalendar),
    ...past.filter(({ at }) => Date.parse(at) > now).map((moment) => ahead(moment, evidence.now)),
    ...orderProblems(evidence),
  ];
}

function outsideCalendar({ path, at }: Moment): DocumentProblem[] {
  const year = Number(at.slice(0, 4));
  if (year >= EARLIEST_YEAR && year <= LATEST_YEAR) return [];
  return [{ path: pathOf(path), value: at, message: `must lie in the years ${EARLIEST_YEAR} to ${LATEST_YEAR}` }];
}

const ahead = ({ path, at }: Moment, now: Timestamp): DocumentProblem => ({
  path: pathOf(path),
  value: at,
  message: `lies after the document's own now, ${now}; what has not happened yet is no evidence`,
});

function recordMoments({ observations, checks, events }: Evidence): Moment[] {
  return [
    ...observations.flatMap(({ observedAt, recordedAt, known }, place): Moment[] => [
      { path: ["observations", place, "observedAt"], at: observedAt },
      { path: ["observations", place, "recordedAt"], at: recordedAt },
      ...(known.source === "paper" ? [{ path: ["observations", place, "known", "latest"], at: known.latest }] : []),
    ]),
    ...checks.flatMap(({ startedAt, signed }, place): Moment[] => [
      { path: ["checks", place, "startedAt"], at: startedAt },
      ...signed.map(({ at }, order) => ({ path: ["checks", place, "signed", order, "at"], at })),
    ]),
    ...events.map(({ at }, place): Moment => ({ path: ["events", place, "at"], at })),
  ];
}

function placeMoments({ room, workstation }: Evidence): Moment[] {
  const moments: Moment[] = [];
  if (room !== null && room.occupancy.state !== "idle") {
    moments.push({ path: ["room", "occupancy", "since"], at: room.occupancy.since });
  }
  if (workstation === null) return moments;
  const { fitted, holds, quarantine, faults, recentFailures = [], firstUserCheckOwedSince, lastUsedAt } = workstation;
  for (const kind of ["cylinders", "vaporizers", "absorbent"] as const) {
    fitted[kind].forEach(({ from }, place) => {
      moments.push({ path: ["workstation", "fitted", kind, place, "from"], at: from });
    });
  }
  if (fitted.oxygenSensor !== null) {
    moments.push({ path: ["workstation", "fitted", "oxygenSensor", "from"], at: fitted.oxygenSensor.from });
  }
  holds.forEach(({ since }, place) => {
    moments.push({ path: ["workstation", "holds", place, "since"], at: since });
  });
  quarantine.forEach(({ since }, place) => {
    moments.push({ path: ["workstation", "quarantine", place, "since"], at: since });
  });
  faults.forEach(({ reportedAt }, place) => {
    if (reportedAt) moments.push({ path: ["workstation", "faults", place, "reportedAt"], at: reportedAt });
  });
  recentFailures.forEach(({ at }, place) => {
    moments.push({ path: ["workstation", "recentFailures", place, "at"], at });
  });
  if (firstUserCheckOwedSince !== null) {
    moments.push({ path: ["workstation", "firstUserCheckOwedSince"], at: firstUserCheckOwedSince });
  }
  if (lastUsedAt) moments.push({ path: ["workstation", "lastUsedAt"], at: lastUsedAt });
  return moments;
}

function plannedMoments({ room, workstation }: Evidence): Moment[] {
  const { firstCase = null, end = null } = room?.list ?? {};
  return [
    ...(firstCase === null ? [] : [{ path: ["room", "list", "firstCase"], at: firstCase }]),
    ...(end === null ? [] : [{ path: ["room", "list", "end"], at: end }]),
    ...(workstation?.allowed ?? []).map(({ until }, place) => ({
      path: ["workstation", "allowed", place, "until"],
      at: until,
    })),
  ];
}

/** Pairs that can only stand in one order. */
function orderProblems({ observations, checks, room, workstation }: Evidence): DocumentProblem[] {
  const { firstCase = null, end = null } = room?.list ?? {};
  return [
    ...observations.flatMap(({ observedAt, recordedAt, known }, place) => [
      ...before(["observations", place, "recordedAt"], recordedAt, observedAt, "when it was observed"),
      ...paperProblems(known, place),
    ]),
    ...checks.flatMap(({ startedAt, signed }, place) =>
      signed.flatMap(({ at }, order) =>
        before(["checks", place, "signed", order, "at"], at, startedAt, "when its check was begun"),
      ),
    ),
    ...(firstCase === null || end === null ? [] : before(["room", "list", "end"], end, firstCase, "its first case")),
    ...(workstation?.serviceDue ?? []).flatMap(({ window }, place) =>
      before(["workstation", "serviceDue", place, "window", "to"], window.to, window.from, "when the window opens"),
    ),
  ];
}

function paperProblems(known: Known, place: number): DocumentProblem[] {
  if (known.source !== "paper") return [];
  return before(
    ["observations", place, "known", "latest"],
    known.latest,
    known.earliest,
    "the earliest it can have been",
  );
}

function before(path: readonly Step[], at: string, than: string, what: string): DocumentProblem[] {
  if (Date.parse(at) >= Date.parse(than)) return [];
  return [{ path: pathOf(path), value: at, message: `lies before ${what}, ${than}` }];
}
