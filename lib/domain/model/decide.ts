import type { ModelRecord } from "@/lib/domain/department/model";
import type { ModelEvidence } from "@/lib/domain/evidence";
import type { ModelAsked } from "@/lib/domain/model/model";
import { done, refused } from "@/lib/domain/outcome";
import { namesake } from "@/lib/domain/room/decide";
import type { PartKnown, WorkstationKnown } from "@/lib/domain/room/model";
import { GAS_NAMES } from "@/lib/domain/wording";

export interface ModelsKnown {
  readonly models: readonly ModelRecord[];
  readonly workstations: readonly WorkstationKnown[];
}

/** A model: added, or changed for every workstation of it. */
export function decideModel(known: ModelsKnown, { modelId, maker, ...asked }: ModelAsked) {
  const was = modelId === null ? null : (known.models.find(({ id }) => id === modelId) ?? null);
  if (modelId !== null && was === null)
    return refused("not-found", "There is no model with this id in your organisation.", "modelId");
  const other = namesake(known.models, asked.name, modelId);
  if (other) return refused("taken", `There is a model named ${other.name} already. Choose another name.`, "name");
  const gasDriven = asked.drive.endsWith("bellows");
  if (gasDriven === (asked.driveGas === "none"))
    return refused(
      "invalid",
      gasDriven
        ? "Bellows are driven by a gas: say which, oxygen or air."
        : `A ${asked.drive} needs no drive gas: choose none.`,
      "driveGas",
    );
  if (asked.driveGas === "nitrous-oxide")
    return refused("invalid", "No bellows are driven by nitrous oxide: choose oxygen or air.", "driveGas");
  const twice = twiceIn(asked.yokes.map(({ position }) => position)) ?? null;
  if (twice !== null) return refused("invalid", `Two yokes are called ${twice}. Give each its own position.`, "yokes");
  const mount = twiceIn(asked.mounts);
  if (mount !== null) return refused("invalid", `Two mounts are called ${mount}. Give each its own name.`, "mounts");
  const document: ModelEvidence = { ...was?.document, ...asked };
  const stranded = strandedOn(
    known.workstations.filter((one) => one.modelId === modelId),
    document,
  );
  if (stranded)
    return refused(
      "does-not-fit",
      `${stranded.tag} has ${nameOf(stranded.part)}. Take it off first, or keep its place.`,
      fieldOf(stranded.part),
    );
  return done({ was, document, maker });
}

const twiceIn = (names: readonly string[]): string | null =>
  names.find((name, index) => names.indexOf(name) !== index) ?? null;

/** The first part that would have no place on its workstation any more. */
export function strandedOn(
  workstations: readonly WorkstationKnown[],
  model: ModelEvidence,
): { readonly tag: string; readonly part: PartKnown } | null {
  for (const { tag, parts, retired } of workstations) {
    const part = retired ? undefined : parts.find((one) => !hasPlaceFor(model, one));
    if (part) return { tag, part };
  }
  return null;
}

function hasPlaceFor({ yokes, mounts }: ModelEvidence, { kind, position, gas }: PartKnown): boolean {
  if (kind === "cylinder") return yokes.some((yoke) => yoke.position === position && yoke.gas === gas);
  return kind !== "vaporizer" || mounts.includes(position);
}

const nameOf = ({ kind, name, position, gas }: PartKnown): string =>
  kind === "cylinder"
    ? `cylinder ${name} (${gas ? GAS_NAMES[gas as keyof typeof GAS_NAMES].toLowerCase() : "gas"}) on yoke ${position}`
    : `vaporizer ${name} on mount ${position}`;

const fieldOf = ({ kind }: PartKnown): "yokes" | "mounts" => (kind === "cylinder" ? "yokes" : "mounts");
