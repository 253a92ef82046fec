import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import type { Subject } from "@/lib/domain/items";
import type { Gas } from "@/lib/domain/vocabulary";
import { type Instant, instantOf } from "@/lib/units/time";

/** Is this subject part of the room or workstation that is judged, now? What was taken off no longer speaks. */
export function isHere(subject: Subject, { room, workstation }: Pick<Evidence, "room" | "workstation">): boolean {
  switch (subject.kind) {
    case "room":
      return room?.id === subject.id;
    case "pipeline":
      return room?.piped.includes(subject.id as Gas) ?? false;
    case "workstation":
      return workstation?.id === subject.id;
    default:
      return partOf(subject, workstation) !== null;
  }
}

interface Part {
  readonly id: string;
  readonly from: string;
}

const NONE: readonly Part[] = [];

/** The fitted part a subject names, with the moment it was fitted. */
function partOf({ kind, id }: Subject, workstation: WorkstationEvidence | null): Part | null {
  for (const part of partsOf(kind, workstation)) if (part.id === id) return part;
  return null;
}

function partsOf(kind: Subject["kind"], workstation: WorkstationEvidence | null): readonly Part[] {
  if (workstation === null) return NONE;
  const { cylinders, vaporizers, absorbent, oxygenSensor } = workstation.fitted;
  switch (kind) {
    case "cylinder":
      return cylinders;
    case "vaporizer":
      return vaporizers;
    case "absorbent":
      return absorbent;
    case "oxygen-sensor":
      return oxygenSensor === null ? NONE : [oxygenSensor];
    default:
      return NONE;
  }
}

export function fittedFrom(subject: Subject, workstation: WorkstationEvidence | null): Instant | null {
  const part = partOf(subject, workstation);
  return part === null ? null : instantOf(part.from);
}
