import type { Quantity } from "@/lib/units/quantity";

/**
 * What a person answered. One shape per kind of item; a gauge reading also says whether the valve was open when it was read,
 * because a shut valve shows trapped pressure over an empty cylinder too.
 * `sure` says that the person was asked about a reading far from its history, and confirmed it.
 */
export type Answer =
  | { readonly kind: "pass"; readonly passed: boolean; readonly note?: string }
  | { readonly kind: "number"; readonly reading: Quantity; readonly sure?: true; readonly note?: string }
  | {
      readonly kind: "gauge";
      readonly reading: Quantity;
      readonly openWhenRead: boolean;
      readonly shutAgain: boolean;
      readonly sure?: true;
      readonly note?: string;
    }
  | { readonly kind: "choice"; readonly choice: string; readonly note?: string }
  | { readonly kind: "timed"; readonly seconds: number; readonly held: boolean; readonly note?: string };

export type AnswerKind = Answer["kind"];
