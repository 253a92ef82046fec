import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import type { Subject } from "@/lib/domain/items";
import { type Instant, instantOf } from "@/lib/units/time";

/** Is this subject part of the room or workstation that is judged, now? What was taken off no longer speaks. */
export function isHere(subject: Subject, { room, workstation }: Pick<Evidence, "room" | "workstation">): boolean {
  switch (subject.kind) {
    case "room":
      return room?.id === subject.id;
    case "pipeline":
      return room?.piped.some((gas) => gas === subject.id) ?? false;
    case "workstation":
      return workstation?.id === subject.id;
    default:
      return partOf(subject, workstation) !== null;
  }
}

/** The fitted part a subject names, with the moment it was fitted. */
function partOf(subject: Subject, workstation: WorkstationEvidence | null): { readonly from: string } | null {
  if (workstation === null) return null;
  const { cylinders, vaporizers, absorbent, oxygenSensor } = workstation.fitted;
  const named = ({ id }: { readonly id: string }) => id === subject.id;
  switch (subject.kind) {
    case "cylinder":
      return cylinders.find(named) ?? null;
    case "vaporizer":
      return vaporizers.find(named) ?? null;
    case "absorbent":
      return absorbent.find(named) ?? null;
    case "oxygen-sensor":
      return oxygenSensor !== null && named(oxygenSensor) ? oxygenSensor : null;
    default:
      return null;
  }
}

export function fittedFrom(subject: Subject, workstation: WorkstationEvidence | null): Instant | null {
  const part = partOf(subject, workstation);
  return part === null ? null : instantOf(part.from);
}
