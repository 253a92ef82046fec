/**
 * What a room comes to, said once more and apart from the judge: from what is known to be wrong with it, whether a case runs, and
 * what its list needs. Only plain words stand here, and nothing of the judge is used.
 */
export type Wrong = "out" | "stops" | "owed" | "limits" | "due" | "note";

export interface Trouble {
  readonly wrong: Wrong;
  /** The rule that says it. */
  readonly rule: string;
  /** What of a list's needs it takes away. */
  readonly takes?: readonly string[];
  /** The patient's own gas is what failed. */
  readonly supply?: boolean;
}

export interface Outcome {
  readonly state: string;
  readonly readyForList: boolean;
  readonly whenInUse: string | null;
  readonly hasDecideBy: boolean;
}

export type Occupied = "idle" | "running" | "inferred" | "closed";

export function outcomeOf(troubles: readonly Trouble[], occupied: Occupied, needs: readonly string[] | null): Outcome {
  const has = (wrong: Wrong) => troubles.some((trouble) => trouble.wrong === wrong);
  const state = has("out")
    ? "out-of-service"
    : has("stops")
      ? "do-not-use"
      : has("owed")
        ? "to-check"
        : has("limits")
          ? "ready-limited"
          : "ready";
  const couldStart = state === "ready" || state === "ready-limited";
  const usual = ["volatile", "mechanical-ventilation", "low-flow"];
  const wanted = needs === null || needs.length === 0 ? usual : needs;
  const taken = troubles.filter(({ wrong }) => wrong === "limits").flatMap(({ takes }) => takes ?? []);
  return {
    state,
    readyForList: couldStart && !wanted.some((need) => taken.includes(need)),
    whenInUse: occupied === "running" ? underCase(troubles) : null,
    hasDecideBy: !couldStart && occupied === "idle" && needs !== null,
  };
}

function underCase(troubles: readonly Trouble[]): string | null {
  const hard = troubles.filter(({ wrong }) => wrong === "out" || wrong === "stops");
  if (hard.length === 0) return null;
  return hard.some(({ supply }) => supply === true) ? "act-now" : "after-this-case";
}
