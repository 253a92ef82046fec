import type { Agent } from "@/lib/domain/vocabulary";
import { AGENT_NAMES } from "@/lib/domain/wording";
import type { SparePartsView } from "@/lib/schemas/moves";
import type { FitWork } from "./part-work";

/** A part that could go on here, and where it is now. */
export interface FitOption {
  readonly id: string;
  readonly tag: string;
  readonly what: string;
  readonly group: string;
  /** The workstation that it would be taken from. */
  readonly takenFrom: string | null;
  /** Why it cannot be had now. */
  readonly unavailable: string | null;
}

/** Parts in the stores first; a vaporizer may also come from another workstation, unless a case is running there. */
export function optionsFor({ kind, position }: FitWork, parts: SparePartsView, today: string): FitOption[] {
  switch (kind) {
    case "absorbent":
      return parts.absorbent.map(({ id, tag, product, store }) => inStore(id, tag, product, store));
    case "oxygen-sensor":
      return parts.oxygenSensors.map(({ id, tag, kind: sensor, store }) => inStore(id, tag, sensor, store));
    case "vaporizer":
      return vaporizersFor(position, parts, today);
  }
}

const inStore = (id: string, tag: string, what: string, store: { name: string } | null): FitOption => ({
  id,
  tag,
  what,
  group: store?.name ?? "In no store on record",
  takenFrom: null,
  unavailable: null,
});

const ELSEWHERE = "On other workstations";

function vaporizersFor(position: string, { vaporizers, workstationId }: SparePartsView, today: string): FitOption[] {
  const options = vaporizers.flatMap((vaporizer): FitOption[] => {
    const { id, tag, fittedTo, store } = vaporizer;
    if (fittedTo === null) return [inStore(id, tag, vaporizerWords(vaporizer, today), store)];
    if (fittedTo.workstationId === workstationId && fittedTo.mount === position) return [];
    const here = fittedTo.workstationId === workstationId;
    const where = here
      ? `mount ${fittedTo.mount} of this one`
      : `${fittedTo.roomName ?? fittedTo.tag}, mount ${fittedTo.mount}`;
    return [
      {
        id,
        tag,
        what: `${vaporizerWords(vaporizer, today)}, ${where}`,
        group: ELSEWHERE,
        takenFrom: fittedTo.workstationId,
        unavailable: fittedTo.inUse && !here ? "a case is running there" : null,
      },
    ];
  });
  return options.sort((left, right) => nearness(left, workstationId) - nearness(right, workstationId));
}

/** In a store, on this workstation, on another one, on one that is in use: the order in which somebody looks. */
function nearness({ takenFrom, unavailable }: FitOption, workstationId: string): number {
  if (unavailable) return 3;
  if (takenFrom === null) return 0;
  return takenFrom === workstationId ? 1 : 2;
}

function vaporizerWords(
  { agent, filler, calibrationDue }: SparePartsView["vaporizers"][number],
  today: string,
): string {
  const name = AGENT_NAMES[agent as Agent] ?? agent;
  const late = calibrationDue !== null && calibrationDue < today ? ", past its calibration" : "";
  return `${name}, ${filler}${late}`;
}

/** Grouped as they lie, the order of the groups kept. */
export function byGroup(options: readonly FitOption[]): [string, FitOption[]][] {
  const groups = new Map<string, FitOption[]>();
  for (const option of options) groups.set(option.group, [...(groups.get(option.group) ?? []), option]);
  return [...groups];
}
