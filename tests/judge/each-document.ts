import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import type { Judgement } from "@/lib/domain/judgement";
import { Random } from "./random";
import { randomEvidence } from "./random-evidence";

/** So many documents by chance, each with numbers of its own for what is done to it. */
export function forEachDocument(
  documents: number,
  look: (evidence: Evidence, random: Random, seed: number) => void,
): void {
  for (let seed = 1; seed <= documents; seed += 1) look(randomEvidence(seed), new Random(-seed), seed);
}

/** What a judgement says, the time that looks ahead aside. */
export const said = ({ goodUntil: _until, ...rest }: Judgement): string => JSON.stringify(rest);

export const saidAt = (evidence: Evidence, moment: number): string =>
  said(judge({ ...evidence, now: new Date(moment).toISOString() }));

/** Every number, word and nothing of an answer. */
export function* leaves(value: unknown): Generator<unknown> {
  if (typeof value !== "object" || value === null) yield value;
  else for (const inside of Object.values(value)) yield* leaves(inside);
}

/** A finite number, a word that shows no slip of the program, a yes or no, or said to be nothing. */
export function isSound(leaf: unknown): boolean {
  if (typeof leaf === "number") return Number.isFinite(leaf);
  if (typeof leaf === "string") return leaf !== "" && !/NaN|Infinity|undefined|\[object/.test(leaf);
  return typeof leaf === "boolean" || leaf === null;
}
