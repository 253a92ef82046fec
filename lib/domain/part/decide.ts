import { SENSOR_POSITION } from "@/lib/domain/department-parts";
import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { type Candidate, type FitAsked, type FittedPart, PART_NAMES, type PartKind } from "@/lib/domain/part/model";

type FitRefusal = "not-found" | "not-allowed" | "moved-on" | "taken" | "invalid" | "does-not-fit" | "already-done";
type Refusal = Extract<Outcome<never, FitRefusal>, { ok: false }>;

export interface FitPlan {
  readonly takenOff: FittedPart | null;
  /** The other workstation that loses the part, when it is not this one. */
  readonly leaves: string | null;
}

/** May this part go to that place? What the place itself would refuse comes first, then what somebody else has done meanwhile. */
export function decideFit(
  workstation: WorkstationEvidence,
  asked: FitAsked,
  other: Evidence | null,
): Outcome<FitPlan, FitRefusal> {
  const { candidate, kind, position } = asked;
  const fitted = partsOn(workstation, kind);
  const there = fitted.find((part) => part.position === position) ?? null;
  return (
    wrongPlace(workstation, asked, fitted) ??
    (candidate === null ? null : wrongPart(workstation, asked, candidate)) ??
    (candidate === null ? null : wrongOrigin(asked, candidate, other)) ??
    wrongSight(asked, there) ??
    done({
      takenOff: there,
      leaves:
        candidate?.fittedTo && candidate.fittedTo.workstationId !== workstation.id
          ? candidate.fittedTo.workstationId
          : null,
    })
  );
}

/** A vaporizer may be taken off whenever it is there; its mount is then owed as closed. */
export function decideRemove(workstation: WorkstationEvidence, partId: string): Outcome<FittedPart, "moved-on"> {
  const there = partsOn(workstation, "vaporizer").find(({ id }) => id === partId);
  return there
    ? done(there)
    : refused("moved-on", `${workstation.tag} does not carry this vaporizer by now. Nothing was changed.`, "partId");
}

export function partsOn({ fitted }: WorkstationEvidence, kind: PartKind): readonly FittedPart[] {
  if (kind === "vaporizer") return fitted.vaporizers.map(({ id, tag, mount }) => ({ id, tag, position: mount }));
  if (kind === "absorbent") return fitted.absorbent;
  return fitted.oxygenSensor === null ? [] : [{ ...fitted.oxygenSensor, position: SENSOR_POSITION }];
}

function wrongPlace(
  { tag, model }: WorkstationEvidence,
  { kind, position }: FitAsked,
  fitted: readonly FittedPart[],
): Refusal | null {
  const places =
    kind === "vaporizer"
      ? model.mounts
      : kind === "absorbent"
        ? fitted.map((part) => part.position)
        : [SENSOR_POSITION];
  // Of an absorber without a canister on record nobody knows how its places are called.
  if (places.includes(position) || (kind === "absorbent" && places.length === 0)) return null;
  const word = kind === "vaporizer" ? "mount" : kind === "absorbent" ? "canister" : "place for a sensor";
  return refused(
    "does-not-fit",
    `${tag} has no ${word} ${position}; it has ${places.join(", ") || "none"}.`,
    "position",
  );
}

function wrongPart(workstation: WorkstationEvidence, asked: FitAsked, candidate: Candidate): Refusal | null {
  const name = `${PART_NAMES[candidate.kind]} ${candidate.tag}`;
  const { agent, sensorKind, fittedTo, storeId, used, kind } = candidate;
  if (asked.agentSeen !== null && agent !== null && asked.agentSeen !== agent)
    return refused(
      "does-not-fit",
      `${name} is for ${agent}, and its label was read as ${asked.agentSeen}. Look at the label again.`,
      "part.agent",
    );
  if (sensorKind !== null && sensorKind !== workstation.model.oxygenSensor)
    return refused(
      "does-not-fit",
      `${workstation.tag} measures oxygen with a ${workstation.model.oxygenSensor} sensor, and ${candidate.tag} is ${sensorKind}.`,
      "part",
    );
  if (kind !== "vaporizer" && fittedTo === null && storeId === null && used)
    return refused("does-not-fit", `${name} was taken off and used up. Take a new one.`, "part");
  return null;
}

function wrongOrigin(asked: FitAsked, candidate: Candidate, other: Evidence | null): Refusal | null {
  const { fittedTo, tag, kind } = candidate;
  const name = `${PART_NAMES[kind]} ${tag}`;
  if (fittedTo === null) {
    if (asked.takenFrom === null) return null;
    return refused(
      "moved-on",
      `${name} is fitted to no workstation by now. Look for it again. Nothing was changed.`,
      "takenFrom",
    );
  }
  if (asked.takenFrom === fittedTo.workstationId && kind === "vaporizer") return wrongMove(asked, candidate, other);
  const remedy =
    kind === "vaporizer" ? "Say that it is taken from there, or choose one in a store." : "Choose one in a store.";
  return refused("taken", `${name} is fitted to ${fittedTo.tag}, place ${fittedTo.position}. ${remedy}`, "part");
}

function wrongMove(
  { position, takesOff }: FitAsked,
  { id, tag, fittedTo }: Candidate,
  other: Evidence | null,
): Refusal | null {
  if (takesOff === id || (fittedTo?.position === position && other === null))
    return refused("already-done", `Vaporizer ${tag} is on mount ${position} already.`);
  if (other?.room?.occupancy.state !== "in-use") return null;
  return refused(
    "not-allowed",
    `A case is running in ${other.room.name}. Vaporizer ${tag} stays there until it has ended.`,
    "takenFrom",
  );
}

function wrongSight({ kind, position, takesOff, candidate }: FitAsked, there: FittedPart | null): Refusal | null {
  if (takesOff !== (there?.id ?? null))
    return refused(
      "moved-on",
      `Place ${position} holds ${there ? `${PART_NAMES[kind].toLowerCase()} ${there.tag}` : "nothing"} by now. Look at it again. Nothing was changed.`,
      "takesOff",
    );
  if (candidate === null && there === null)
    return refused("invalid", "There is nothing of which it could be the same product again. Name the part.", "part");
  return null;
}
