import type { ItemId, Subject } from "@/lib/domain/items";
import type { Scheme } from "@/lib/domain/vocabulary";
import type { Unit } from "@/lib/units/quantity";

/** A reading between two figures, by scheme; it is given in the unit the question is typed in. */
export interface Range {
  readonly from: number;
  readonly to: number;
  readonly unit: Unit;
}
export type Ranges = Readonly<Record<Scheme, Range>>;

/**
 * What is truly there. "{reading}" in a sentence stands for the figure that was thrown, "{trapped}" for what a gauge shows with its valve
 * shut: the same, unless trapped pressure hides an empty cylinder.
 */
export type Truth =
  | { readonly kind: "pass"; readonly passed: boolean }
  | { readonly kind: "number"; readonly reading: Ranges }
  | { readonly kind: "gauge"; readonly open: Ranges; readonly trapped?: Ranges }
  | { readonly kind: "choice"; readonly choice: string }
  | { readonly kind: "timed"; readonly held: boolean; readonly seconds: number };

export interface Telling {
  readonly truth: Truth;
  /** Act and sight, in order: the fault shows in the last one. */
  readonly acts: readonly (readonly [act: string, see: string])[];
}

export interface ScriptedFault extends Telling {
  readonly id: string;
  readonly wrong: string;
  readonly harm: string;
}

/** What can be seen at one item: when nothing is wrong, and with each fault that can be planted there. */
export interface Script {
  readonly item: ItemId;
  /** For an item that is asked of several things: which of them this is about. */
  readonly of?: (subject: Subject) => boolean;
  readonly healthy: Telling;
  readonly faults: readonly ScriptedFault[];
}

export const right = (...acts: Telling["acts"]): Telling => ({ truth: { kind: "pass", passed: true }, acts });
export const wrong = (id: string, what: string, harm: string, ...acts: Telling["acts"]): ScriptedFault => ({
  id,
  wrong: what,
  harm,
  truth: { kind: "pass", passed: false },
  acts,
});
const range = (from: number, to: number, unit: Unit): Range => ({ from, to, unit });
export const inBoth = (from: number, to: number, unit: Unit): Ranges => ({
  US: range(from, to, unit),
  ISO: range(from, to, unit),
});
export const byScheme = (us: readonly [number, number, Unit], iso: readonly [number, number, Unit]): Ranges => ({
  US: range(...us),
  ISO: range(...iso),
});
