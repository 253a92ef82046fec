import { departmentEndurance } from "@/lib/calculations/department-endurance";
import { boardSummary, type Reserve } from "@/lib/domain/board-summary";
import { driveFlow } from "@/lib/domain/endurance";
import type { Evidence, EvidenceEvent, FittedCylinder, Observation, WorkstationEvidence } from "@/lib/domain/evidence";
import { gaugeWorth } from "@/lib/domain/gauge-worth";
import type { Subject } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import type { SettingsPlace } from "@/lib/domain/rule";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { Supposed, Supposition } from "@/lib/domain/what-if/model";
import { GAS_NAMES, lowerFirst } from "@/lib/domain/wording";
import { litre, litrePerMinute } from "@/lib/units/measure";
import { quantity, valueIn } from "@/lib/units/quantity";

/** Ids that no record has: what is supposed can never be taken for what happened. */
const SUPPOSED = "supposed";

/** A room's evidence with its oxygen pipeline at no pressure from this moment on. */
export function withoutPipeline(evidence: Evidence): Evidence {
  const subject: Subject = { kind: "pipeline", id: "oxygen" };
  const unit = evidence.facility.pressureUnit;
  const observation: Observation = {
    id: SUPPOSED,
    item: "pipeline-pressure",
    subject,
    answer: { kind: "number", reading: quantity(0, unit) },
    verdict: "fail",
    makersVerdict: null,
    observedAt: evidence.now,
    known: { source: "server" },
    by: SUPPOSED,
    role: "charge-provider",
    check: null,
    recordedAt: evidence.now,
    supersedes: null,
  };
  const event: EvidenceEvent = { id: SUPPOSED, kind: "pipeline-event", subject, at: evidence.now, zone: null };
  return { ...evidence, observations: [...evidence.observations, observation], events: [...evidence.events, event] };
}

/** A room's evidence with its workstation taken out of it. */
export const withoutWorkstation = (evidence: Evidence): Evidence => ({
  ...evidence,
  workstation: null,
  procedure: evidence.procedure && { ...evidence.procedure, owes: [] },
});

const shares = (name: string, named: string): boolean => name.toLowerCase().startsWith(named.trim().toLowerCase());

/** The fitted parts that are meant. */
function partsMeant(
  { fitted }: WorkstationEvidence,
  { part, named }: Extract<Supposed, { what: "withdrawn" }>,
): readonly { readonly id: string; readonly text: string }[] {
  switch (part) {
    case "vaporizer":
      return fitted.vaporizers
        .filter(({ tag }) => shares(tag, named))
        .map(({ id, tag, agent }) => ({ id, text: `${agent} vaporizer ${tag}` }));
    case "cylinder":
      return fitted.cylinders
        .filter(({ serial }) => shares(serial, named))
        .map(({ id, serial, gas }) => ({ id, text: `${lowerFirst(GAS_NAMES[gas])} cylinder ${serial}` }));
    case "absorbent":
      return fitted.absorbent
        .filter(({ tag, product }) => shares(tag, named) || shares(product.name, named))
        .map(({ id, tag, product }) => ({ id, text: `${product.name} ${tag}` }));
  }
}

/**
 * A room's evidence with those parts withdrawn: still where they are, and not to be used, as after a quarantine. Null where none of
 * them is fitted.
 */
export function withoutParts(
  evidence: Evidence,
  supposed: Extract<Supposed, { what: "withdrawn" }>,
): { readonly evidence: Evidence; readonly gone: readonly string[] } | null {
  const { workstation, now } = evidence;
  const meant = workstation === null ? [] : partsMeant(workstation, supposed);
  if (workstation === null || meant.length === 0) return null;
  const quarantine = meant.map(({ id }) => ({ subject: { kind: supposed.part, id }, since: now }));
  return {
    evidence: { ...evidence, workstation: { ...workstation, quarantine: [...workstation.quarantine, ...quarantine] } },
    gone: meant.map(({ text }) => text),
  };
}

/** What would become of a room; null where what is supposed does not touch it. */
export function suppose(evidence: Evidence, supposed: Supposed): Supposition | null {
  const changed = changedBy(evidence, supposed);
  if (changed === null) return null;
  return {
    is: { evidence, judgement: judge(evidence) },
    wouldBe: { evidence: changed.evidence, judgement: judge(changed.evidence) },
    gone: changed.gone,
  };
}

function changedBy(evidence: Evidence, supposed: Supposed) {
  const { room, workstation } = evidence;
  switch (supposed.what) {
    case "pipeline-fails": {
      const touched =
        (room?.piped.includes("oxygen") ?? false) && (supposed.zone === null || room?.zone === supposed.zone);
      return touched ? { evidence: withoutPipeline(evidence), gone: ["oxygen pipeline"] } : null;
    }
    case "workstation-out":
      return workstation?.id === supposed.workstationId && room !== null
        ? { evidence: withoutWorkstation(evidence), gone: [workstation.tag] }
        : null;
    case "withdrawn":
      return withoutParts(evidence, supposed);
  }
}

/** One room on its reserve after the pipeline has gone. */
export interface RoomOnReserve {
  readonly room: string;
  readonly roomId: string;
  readonly inUse: boolean;
  readonly reserve: Reserve | null;
  /** Null where no gauge was read open: then nobody knows, and that is the shortest time there is. */
  readonly minutesByHand: number | null;
  readonly minutesOnVentilator: number | null;
  /** The drive takes oxygen of its own, so that by hand it lasts longer. */
  readonly drivenByOxygen: boolean;
}

/** Rooms by how long they last on the ventilator, the shortest first; an unread gauge comes before them all. */
export function onReserve(evidences: readonly Evidence[]): RoomOnReserve[] {
  return evidences
    .map((evidence): RoomOnReserve => {
      const { reserve } = boardSummary(evidence, judge(evidence));
      const { room, workstation } = evidence;
      return {
        room: room?.name ?? "",
        roomId: room?.id ?? "",
        inUse: room?.occupancy.state === "in-use",
        reserve,
        minutesByHand: reserve?.minutesByHand ?? null,
        minutesOnVentilator: reserve?.minutesOnVentilator ?? null,
        drivenByOxygen: workstation !== null && driveFlow(workstation.model, evidence) > 0,
      };
    })
    .sort(
      (left, right) =>
        (left.minutesOnVentilator ?? -1) - (right.minutesOnVentilator ?? -1) || (left.room < right.room ? -1 : 1),
    );
}

/** What the department holds in its stores: full oxygen cylinders, at the pressure they are rated for when full. */
export interface StoredOxygen {
  readonly cylinders: number;
  readonly litres: number;
}

/** Full cylinders' usable litres down to the residual, by their low end. One whose gauge nobody read counts as full only if it is marked so. */
export function storedOxygen(cylinders: readonly FittedCylinder[], place: SettingsPlace): StoredOxygen {
  const { residual } = valuesOf(endurance, place);
  let litres = 0;
  for (const cylinder of cylinders) {
    const full = gaugeWorth(cylinder.ratedPressure, cylinder, place);
    const stays = gaugeWorth(residual, cylinder, place);
    if (full.kind === "litres" && stays.kind === "litres") litres += Math.max(0, full.low - stays.litres);
  }
  return { cylinders: cylinders.length, litres: Math.round(litres) };
}

export interface DepartmentLasts {
  readonly mode: "by-hand" | "on-ventilator";
  readonly firstOut: { readonly room: string; readonly minutes: number };
  readonly allRooms: number;
}

/**
 * How long the rooms go on together, by hand or on the ventilator, with the store carried to each before it runs out; null where no
 * room's gauge was read. The most there can be: cylinders are whole and people walk.
 */
export function departmentLasts(
  rooms: readonly Evidence[],
  store: StoredOxygen,
  mode: DepartmentLasts["mode"],
): DepartmentLasts | null {
  const reserves = rooms.flatMap((evidence) => {
    const { reserve } = boardSummary(evidence, judge(evidence));
    const { workstation, room } = evidence;
    const { byHandFlow } = valuesOf(endurance, evidence);
    const byHand = valueIn(byHandFlow, "L/min") ?? 0;
    const minutes = reserve?.minutesByHand ?? null;
    if (!workstation || minutes === null) return [];
    const drive = mode === "on-ventilator" ? driveFlow(workstation.model, evidence) : 0;
    // The minutes by hand already count from the low end down to the residual.
    return [
      {
        room: room?.name ?? "",
        contents: litre(minutes * byHand),
        residual: litre(0),
        flow: litrePerMinute(byHand + drive),
      },
    ];
  });
  if (reserves.length === 0) return null;
  const lasts = departmentEndurance(reserves, litre(store.litres));
  if (!lasts.ok) return null;
  const [first] = lasts.value.rooms;
  return {
    mode,
    firstOut: { room: first?.room ?? "", minutes: Math.floor(lasts.value.firstRoomOut) },
    allRooms: Math.floor(lasts.value.allRooms),
  };
}
