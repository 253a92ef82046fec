export interface Part {
  readonly id: string;
  readonly tag: string;
}

/** One piece of work at a place of the gas path. */
export type PartWork =
  | { readonly kind: "cylinder"; readonly position: string }
  | {
      readonly kind: "vaporizer" | "absorbent" | "oxygen-sensor";
      readonly position: string;
      /** What stands there now, and comes off. */
      readonly takesOff: Part | null;
      /** The one that goes on, where it is known already: a move from another mount of this workstation. */
      readonly goesOn: Part | null;
    }
  | { readonly kind: "remove"; readonly position: string; readonly part: Part };

export type FitWork = Extract<PartWork, { readonly takesOff: Part | null }>;
