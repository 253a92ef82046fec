import type { Commands } from "@/app/_parts/command-types";
import type { Agent } from "@/lib/domain/vocabulary";
import type { SparePartsView } from "@/lib/schemas/moves";
import type { FitOption } from "./fit-options";
import type { FitWork } from "./part-work";

/** What goes on: one from the list, one by the tag on its label, or a new one of the same product. */
export type FitChosen =
  | { readonly by: "id"; readonly id: string; readonly takenFrom: string | null }
  | { readonly by: "tag"; readonly tag: string }
  | { readonly by: "same" };

type FitInput = Commands["fit-part"]["input"];

export function requestOf(
  { kind, position, takesOff }: FitWork,
  chosen: FitChosen,
  { workstationId, vaporizers }: Pick<SparePartsView, "workstationId" | "vaporizers">,
  agent: Agent | null,
  toStoreId: string | null,
): FitInput {
  const takenFrom =
    chosen.by === "id"
      ? chosen.takenFrom
      : chosen.by === "tag" && kind === "vaporizer"
        ? (vaporizers.find(({ tag }) => sameTag(tag, chosen.tag))?.fittedTo?.workstationId ?? null)
        : null;
  return {
    workstationId,
    part: partOf(kind, chosen, agent),
    position,
    takesOff: takesOff?.id ?? null,
    ...(takenFrom === null ? {} : { takenFrom }),
    ...(toStoreId === null ? {} : { toStoreId }),
  };
}

function partOf(kind: FitWork["kind"], chosen: FitChosen, agent: Agent | null): FitInput["part"] {
  if (chosen.by === "same")
    return { kind: kind === "absorbent" ? kind : "oxygen-sensor", which: { sameProduct: true } };
  const which = chosen.by === "id" ? { id: chosen.id } : { tag: chosen.tag.trim() };
  return kind === "vaporizer" && chosen.by === "tag" && agent !== null ? { kind, which, agent } : { kind, which };
}

const sameTag = (left: string, right: string): boolean => left.toLowerCase() === right.trim().toLowerCase();

/** What the button will do: "VP-48 on, VP-04 off". */
export function wordsOf(
  { takesOff, goesOn, position, kind }: FitWork,
  chosen: FitChosen | null,
  options: readonly FitOption[],
  product: string | null,
): string {
  if (goesOn) return `Moved: ${goesOn.tag} on mount ${position}`;
  if (chosen === null) return kind === "vaporizer" ? "Fitted: choose a vaporizer" : "Changed: choose one";
  const off = takesOff ? `, ${takesOff.tag} off` : "";
  if (chosen.by === "same") return `Changed: new ${product ?? "one"}${off}`;
  const tag = chosen.by === "tag" ? chosen.tag.trim() : (options.find(({ id }) => id === chosen.id)?.tag ?? "");
  return `Changed: ${tag} on${off}`;
}
