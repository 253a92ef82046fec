import { numberText, quantityText } from "@/app/_parts/format";
import type { ItemId } from "@/lib/domain/items";
import type { Severity } from "@/lib/domain/judgement";
import type { Gas } from "@/lib/domain/vocabulary";
import { AGENT_NAMES, GAS_NAMES } from "@/lib/domain/wording";
import type { RoomView } from "@/lib/schemas/room";
import { type PathZone, PLACES } from "./gas-path-places";

export type PartView = RoomView["parts"][number];
export type Finding = RoomView["judgement"]["reasons"][number];

/** How one place of the gas path stands: the worst of its parts and of what the rules say about them. */
export type NodeTone = "stop" | "limit" | "due" | "work" | "go" | "none";

/** One place of the gas path: what is read or tested there, together. */
export interface PathNode {
  readonly id: string;
  readonly zone: PathZone;
  readonly title: string;
  readonly gas: Gas | null;
  /** The yoke or mount it sits on, when it can be empty. */
  readonly position: string | null;
  readonly parts: readonly PartView[];
  readonly reasons: readonly Finding[];
  readonly tone: NodeTone;
  readonly value: string;
  readonly sub: string;
  /** The same in the few letters that the picture has room for. */
  readonly brief: string;
}

const OF_CYLINDER: readonly ItemId[] = ["cylinder-gauge", "yoke-leak"];
const OF_PIPELINE: readonly ItemId[] = ["pipeline-pressure", "pipeline-identity"];
const OF_VAPORIZER: readonly ItemId[] = ["vaporizer-fill", "vaporizer-seated", "filler-closed"];
/** Oxygen last and lowest, as it joins the others last on the workstation too. */
const GAS_ORDER: readonly Gas[] = ["air", "nitrous-oxide", "oxygen"];

/** The gas passes here on every workstation, whether or not its check asks about it. */
const ALWAYS_THERE: ReadonlySet<string> = new Set(["flow-controls", "outlet"]);
const NOT_ASKED = "not asked here";

/** Every part of the room at its place of the gas path, in the order in which gas passes. */
export function pathNodes(view: RoomView): PathNode[] {
  const node = nodeMaker(view);
  const fixed = PLACES.map(({ items, ...place }) =>
    node({ ...place, gas: null, position: null }, items, null, ALWAYS_THERE.has(place.id) ? NOT_ASKED : ""),
  );
  const all = [...cylinderNodes(view, node), ...pipelineNodes(view, node), ...vaporizerNodes(view, node), ...fixed];
  // Where only the guard between the flow controls is asked about, it stands for both.
  const guarded = all.some(({ id, parts }) => id === "hypoxic-guard" && parts.length > 0);
  return all.filter((one) => one.value !== "" && !(guarded && one.id === "flow-controls" && one.parts.length === 0));
}

type NodeHead = Pick<PathNode, "id" | "zone" | "title" | "gas" | "position">;
type MakeNode = (head: NodeHead, items: readonly ItemId[], subjectId: string | null, empty?: string) => PathNode;

function nodeMaker({ parts, judgement }: RoomView): MakeNode {
  return (head, items, subjectId, empty = "") => {
    const own = items.flatMap((item) =>
      parts.filter((part) => part.item === item && (subjectId === null || part.subject.id === subjectId)),
    );
    const reasons = judgement.reasons.filter((reason) => own.some((part) => concerns(reason, part)));
    const first = own.find(({ standing }) => standing === "failing") ?? own[0];
    const sub = first?.worth ?? (first?.limit ? first.limit : "");
    return {
      ...head,
      parts: own,
      reasons,
      tone: toneOf(own, reasons),
      value: first ? shortly(first) : empty,
      sub,
      brief: sub,
    };
  };
}

/** A place opens when something was found there, or when something could be fitted there. */
export const opens = ({ parts, position }: PathNode): boolean => parts.length > 0 || position !== null;

/** A gauge is read with its valve open; only where it was not, the few words beside the figure are needed. */
export function shortly({ item, answer, shown }: PartView): string {
  // "None" beside "Absorbent" would read as if there were none.
  if (item === "absorbent-colour" && shown !== null) return `Colour: ${shown.toLowerCase()}`;
  if (answer?.kind !== "gauge") return shown ?? "not answered";
  return answer.openWhenRead ? quantityText(answer.reading) : `${quantityText(answer.reading)}, valve shut`;
}

/**
 * A reason speaks of a part when it names its item, and its subject unless it is about the whole workstation or room.
 * One that says what is still owed speaks of no part that is already answered.
 */
export function concerns(reason: Finding, part: PartView): boolean {
  if (reason.severity === "owed" && part.standing !== "owed") return false;
  const isWhole = reason.subject.kind === "workstation" || reason.subject.kind === "room";
  const sameSubject = reason.subject.kind === part.subject.kind && reason.subject.id === part.subject.id;
  return reason.items.length === 0
    ? sameSubject && !isWhole
    : reason.items.includes(part.item) && (sameSubject || isWhole);
}

const TONE_OF_SEVERITY: Record<Severity, NodeTone> = {
  out: "stop",
  stops: "stop",
  owed: "due",
  limits: "limit",
  due: "work",
  note: "go",
};
const WORST_FIRST: readonly NodeTone[] = ["stop", "limit", "due", "work", "go", "none"];
const TONE_OF_STANDING: Record<PartView["standing"], NodeTone> = {
  failing: "stop",
  owed: "due",
  passing: "go",
  noted: "none",
};

function toneOf(parts: readonly PartView[], reasons: readonly Finding[]): NodeTone {
  const tones = parts.map((part) => {
    const said = reasons.filter((reason) => concerns(reason, part)).map(({ severity }) => TONE_OF_SEVERITY[severity]);
    if (part.standing === "failing" && said.length > 0) return worst(said);
    return worst([...said.filter((tone) => tone !== "go"), TONE_OF_STANDING[part.standing]]);
  });
  return worst(tones);
}

const worst = (tones: readonly NodeTone[]): NodeTone => WORST_FIRST.find((tone) => tones.includes(tone)) ?? "none";

function cylinderNodes({ fitted, endurance }: RoomView, node: MakeNode): PathNode[] {
  if (!fitted) return [];
  const inBrief = (made: PathNode): PathNode => {
    const worth = endurance?.cylinders.find(({ position }) => position === made.position);
    // What is known of a cylinder with liquid in it comes before the colon, and why no more is known after it.
    const [first = ""] = made.sub.split(":");
    return { ...made, brief: worth ? `${numberText(worth.litres, 0)} L · ${worth.byHand} min by hand` : first };
  };
  return GAS_ORDER.flatMap((gas) =>
    fitted.yokes
      .filter((yoke) => yoke.gas === gas)
      .map(({ position }) => {
        const cylinder = fitted.cylinders.find((one) => one.position === position);
        const size = cylinder ? ` (${cylinder.size})` : "";
        const head = {
          id: `yoke-${position}`,
          zone: "high",
          title: `${GAS_NAMES[gas]}, yoke ${position}${size}`,
          gas,
          position,
        } as const;
        return cylinder ? inBrief(node(head, OF_CYLINDER, cylinder.id)) : node(head, [], null, "no cylinder");
      }),
  );
}

function pipelineNodes({ row, fitted }: RoomView, node: MakeNode): PathNode[] {
  return GAS_ORDER.filter((gas) => row.piped.includes(gas) || fitted?.yokes.some((yoke) => yoke.gas === gas)).map(
    (gas) => {
      const head = {
        id: `pipeline-${gas}`,
        zone: "intermediate",
        title: `${GAS_NAMES[gas]} pipeline`,
        gas,
        position: null,
      } as const;
      return row.piped.includes(gas)
        ? node(head, OF_PIPELINE, gas, "no reading")
        : node(head, [], null, "not piped here");
    },
  );
}

function vaporizerNodes({ fitted }: RoomView, node: MakeNode): PathNode[] {
  return (fitted?.mounts ?? []).map((mount) => {
    const vaporizer = fitted?.vaporizers.find((one) => one.mount === mount);
    const agent = vaporizer ? (AGENT_NAMES[vaporizer.agent as keyof typeof AGENT_NAMES] ?? vaporizer.agent) : null;
    const head = {
      id: `mount-${mount}`,
      zone: "low",
      title: agent ?? `Mount ${mount}`,
      gas: null,
      position: mount,
    } as const;
    return vaporizer ? node(head, OF_VAPORIZER, vaporizer.id) : node(head, [], null, "empty");
  });
}
