import type { SparesView } from "@/lib/schemas/moves";

type Suitable = SparesView["suitable"][number];
type Unsuitable = SparesView["unsuitable"][number];

/** A spare that may be chosen: one that suits, or one that somebody takes who knows why it does not. */
export type Candidate = Suitable | Unsuitable;

export const isSuitable = (candidate: Candidate): candidate is Suitable => "owed" in candidate;

export interface SwapChosen {
  readonly workstationId: string;
  /** Where the one that goes out is put; null until somebody says, where nothing can be taken for granted. */
  readonly storeId: string | null;
}

/** The nearest checked spare, and for the one that goes out the place that it leaves free. */
export function firstChoice({ suitable, stores }: SparesView): SwapChosen | null {
  const nearest = suitable[0];
  return nearest ? chosenWith(nearest, stores, null) : null;
}

/** The store the spare came from has room now; one that somebody has chosen stays chosen. */
export function chosenWith(
  { workstationId, store }: Pick<Candidate, "workstationId" | "store">,
  stores: SparesView["stores"],
  chosenStore: string | null,
): SwapChosen {
  const only = stores.length === 1 ? (stores[0]?.id ?? null) : null;
  return { workstationId, storeId: chosenStore ?? store?.id ?? only };
}

export function candidateOf({ suitable, unsuitable }: SparesView, workstationId: string | null): Candidate | null {
  return [...suitable, ...unsuitable].find((one) => one.workstationId === workstationId) ?? null;
}

/** "Swap: AW-25 in, AW-02 to Anesthesia workroom" */
export function swapWords(
  incomingTag: string,
  outgoingTag: string | null,
  storeId: string | null,
  stores: SparesView["stores"],
): string {
  if (outgoingTag === null) return `Bring in ${incomingTag}`;
  const store = stores.find(({ id }) => id === storeId)?.name;
  return `Swap: ${incomingTag} in, ${outgoingTag} ${store ? `to ${store}` : "out"}`;
}

/** What is owed, each item once with the subjects it is about: "Pipeline pressure (air, oxygen)". */
export function owedLines(owed: Suitable["owed"]): string[] {
  const subjects = new Map<string, string[]>();
  for (const { itemName, subjectName } of owed) {
    const known = subjects.get(itemName) ?? [];
    subjects.set(itemName, subjectName === "" ? known : [...known, shortSubject(subjectName, itemName)]);
  }
  return [...subjects].map(([item, about]) => (about.length === 0 ? item : `${item}: ${about.join(", ")}`));
}

/** Beside "Pipeline pressure" the word pipeline says nothing new. */
function shortSubject(subject: string, item: string): string {
  const words = new Set(item.toLowerCase().split(" "));
  const short = subject
    .split(" ")
    .filter((word) => !words.has(word.toLowerCase()))
    .join(" ");
  const name = short === "" ? subject : short;
  return name.charAt(0).toLowerCase() + name.slice(1);
}
