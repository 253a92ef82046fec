import type { SettingOverrides } from "@/lib/domain/evidence";
import type { ItemId } from "@/lib/domain/items";
import type { CheckKind, Gas, LeakTest, Scheme } from "@/lib/domain/vocabulary";
import type { Unit } from "@/lib/units/quantity";

/** Who may answer an item, as a department decides it. "both": technician and provider each look. */
export type AnsweredBy = "technician" | "provider" | "either" | "both";

/**
 * How an item is answered. Its limit is not here: it lives in the rule that judges the item. `least` and `most` are what can be
 * typed at all; with "site-pressure" they are in psi and become the site's own unit when the procedure is expanded.
 */
export type AnswerForm =
  | { readonly kind: "pass"; readonly yes: string; readonly no: string }
  | {
      readonly kind: "number";
      readonly unit: Unit | "site-pressure";
      readonly least: number;
      readonly most: number;
      readonly decimals: number;
    }
  | { readonly kind: "gauge"; readonly unit: "site-pressure" }
  | { readonly kind: "choice"; readonly options: readonly { readonly value: string; readonly label: string }[] }
  | { readonly kind: "timed"; readonly seconds: number; readonly what: string };

/** When an item is asked at all: every condition that is present must hold. */
export interface AppliesWhen {
  readonly leakTest?: readonly LeakTest[];
  readonly gas?: Gas;
  /** Asked only where the list or the make-up has nitrous oxide at hand: piped or on a yoke. */
  readonly nitrousOxideAtHand?: boolean;
  readonly outletSelector?: boolean;
  readonly wasteGasActive?: boolean;
  readonly vacuum?: boolean;
  readonly vaporizerFitted?: boolean;
  readonly indicatorAbsorbent?: boolean;
  /** For an item that the two schemes read in different units. */
  readonly scheme?: Scheme;
  /** Asked only of a model whose self-test covers something. */
  readonly selfTest?: boolean;
  /** Left out where the model's self-test covers the item. */
  readonly unlessSelfTestCovers?: boolean;
}

export interface ProcedureItem {
  readonly item: ItemId;
  readonly title: string;
  readonly how: string;
  readonly why: string;
  readonly whenItFails: string;
  readonly answer: AnswerForm;
  readonly by: AnsweredBy;
  readonly applies: AppliesWhen;
}

/** A procedure is versioned data: a check points to the version it was done with, and a version in force is never edited. */
export interface Procedure {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly kind: CheckKind;
  readonly citation: string;
  readonly items: readonly ProcedureItem[];
  /** Limits that hold wherever this procedure is followed, over the site's own. */
  readonly settings?: SettingOverrides;
}
