import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import type { Check, Evidence } from "@/lib/domain/evidence";
import { isFullCheck } from "@/lib/domain/judge-signatures";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { explained } from "@/lib/domain/why";
import { rowsIn } from "@/lib/queries/board";
import { roomHolder } from "@/lib/queries/evidence";
import { openChecksOf } from "@/lib/queries/open-checks";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { fittedOf } from "@/lib/queries/room-fitted";
import { enduranceOf, partsOf } from "@/lib/queries/room-parts";
import { tasksIn } from "@/lib/queries/tasks";
import type { RoomView } from "@/lib/schemas/room";
import type { Tx } from "@/lib/storage/client";
import type { Frame } from "@/lib/storage/facility-frame";
import { openFaults } from "@/lib/storage/faults";
import { namesOf } from "@/lib/storage/names";
import { readingSeries, type SeriesPoint } from "@/lib/storage/reading-series";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

/** A room as its page shows it; null when the facility has no such room. */
export const readRoom = (actor: Actor, roomId: string, reading: Reading = appReading()): Promise<RoomView | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const holder = await roomHolder(tx, frame, roomId, now);
      const [row] = holder ? await rowsIn(tx, frame, now, [roomId]) : [];
      if (!holder || !row) return null;
      const { evidence } = holder;
      const names = await namesOf(tx, peopleIn(evidence));
      const series = await seriesOf(tx, frame, evidence, roomId, now);
      const parts = partsOf(evidence, holder.procedure, names, series);
      return {
        facility: frame.facility,
        row,
        ...judgedOf(evidence),
        drive: evidence.workstation?.model.drive ?? null,
        leakTest: evidence.workstation?.model.leakTest ?? null,
        fitted: evidence.workstation && fittedOf(evidence.workstation),
        parts,
        endurance: enduranceOf(evidence, parts),
        service: (evidence.workstation?.serviceDue ?? []).map(({ plan, due, window }) => ({
          plan,
          due,
          from: window.from,
          to: window.to,
        })),
        holds: (evidence.workstation?.holds ?? []).map(({ id, by, role, reason, since }) => ({
          id,
          name: names.get(by) ?? "unknown",
          role,
          reason,
          since,
        })),
        ...checksOf(evidence, names, now),
        tasks: await tasksIn(tx, frame, now, actor.personId, { holders: [roomId] }),
        faults: holder.workstationId ? await openFaults(tx, frame.scope.facilityId, holder.workstationId) : [],
        openChecks: holder.workstationId ? await openChecksOf(tx, frame, now, holder.workstationId) : [],
        providerChanges: providerChangesOf(evidence, names, now),
        at: timestampOf(now),
      };
    },
    reading,
  );

const seriesOf = async (
  tx: Tx,
  frame: Frame,
  { workstation }: Evidence,
  roomId: string,
  now: Instant,
): Promise<ReadonlyMap<string, readonly SeriesPoint[]>> =>
  workstation ? readingSeries(tx, frame.scope.facilityId, workstation.id, roomId, now) : new Map();

/** The domain's answers are read-only; views are plain data that JSON will copy anyway. */
function judgedOf(evidence: Evidence): Pick<RoomView, "judgement" | "clears" | "way"> {
  const { whatClears, whyNot, ...judgement } = explained(evidence);
  const clears = whatClears.map(({ anyOf }) => anyOf);
  return structuredClone({ judgement, clears, way: whyNot }) as unknown as ReturnType<typeof judgedOf>;
}

function peopleIn({ observations, checks, workstation }: Evidence): string[] {
  return [
    ...observations.map(({ by }) => by),
    ...checks.flatMap(({ startedBy, signed }) => [startedBy, ...signed.map(({ by }) => by)]),
    ...(workstation?.holds.map(({ by }) => by) ?? []),
  ];
}

/** Today's full checks of the room, and the one that a provider would confirm. */
function checksOf(
  evidence: Evidence,
  names: ReadonlyMap<string, string>,
  now: Instant,
): Pick<RoomView, "checks" | "confirmable"> {
  const today = checkDayAt(checkClock(evidence), now).from;
  const name = (id: string) => names.get(id) ?? "unknown";
  const full = evidence.checks
    .filter((check) => isFullCheck(check) && isOfHere(check, evidence))
    .filter((check) => instantOf(performed(check)?.at ?? check.startedAt) >= today)
    .sort((left, right) => instantOf(right.startedAt) - instantOf(left.startedAt));
  const checks = full.map((check) => {
    const signature = performed(check);
    return {
      id: check.id,
      kind: check.kind,
      startedAt: check.startedAt,
      startedBy: name(check.startedBy),
      signedAt: signature?.at ?? null,
      signedBy: signature ? name(signature.by) : null,
    };
  });
  const newest = full.find((check) => performed(check));
  const signature = newest && performed(newest);
  if (!newest || !signature || newest.signed.some(({ meaning }) => meaning === "confirmed"))
    return { checks, confirmable: null };
  const answers = evidence.observations.filter(({ check }) => check === newest.id);
  return {
    checks,
    confirmable: {
      checkId: newest.id,
      version: answers.length + newest.signed.length,
      signedAt: signature.at,
      signedBy: name(signature.by),
      failing: answers.filter(({ verdict }) => verdict === "fail").length,
    },
  };
}

/** After a swap the room still holds the checks of the workstation that went out; they sign the room's own answers, and no more. */
const isOfHere = ({ workstation }: Check, evidence: Evidence): boolean =>
  !workstation || workstation === evidence.workstation?.id;

function providerChangesOf(
  evidence: Evidence,
  names: ReadonlyMap<string, string>,
  now: Instant,
): RoomView["providerChanges"] {
  const today = checkDayAt(checkClock(evidence), now).from;
  return evidence.checks
    .filter(({ kind, startedAt }) => kind === "provider-change" && instantOf(startedAt) >= today)
    .sort((left, right) => instantOf(right.startedAt) - instantOf(left.startedAt))
    .map(({ startedBy, startedAt, signed }) => ({
      name: names.get(startedBy) ?? "unknown",
      confirmed: signed.length > 0,
      at: startedAt,
    }));
}

const performed = (check: Check) => check.signed.find(({ meaning }) => meaning === "performed");
