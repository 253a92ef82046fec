import type { SettingOverrides } from "@/lib/domain/evidence";
import type { ItemId, OwnItemId } from "@/lib/domain/items";
import type { CheckKind, Gas, LeakTest, Scheme } from "@/lib/domain/vocabulary";
import type { Unit } from "@/lib/units/quantity";

/**
 * Who may answer an item, as a department decides it. "both": the technician looks, and the provider's confirmation is the second
 * look. "not-delegated": the provider who confirms or signs answers it, and nobody in their place.
 */
export const ANSWERED_BY = ["technician", "provider", "either", "both", "not-delegated"] as const;
export type AnsweredBy = (typeof ANSWERED_BY)[number];

/** What a failed question of a site's own does, as the site chose. */
export const OWN_FAILING = ["stops", "due"] as const;
export type OwnFailing = (typeof OWN_FAILING)[number];

/** Limits of a reading that a site asks for on its own; no rule stands behind it. In the unit of the answer's form. */
export interface OwnLimits {
  readonly atLeast?: number;
  readonly atMost?: number;
}

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
  /** May be left out when the same user checked this workstation before on the same day, and nothing happened to it since. */
  readonly sameUserMaySkip?: boolean;
  /** Of a site's own question alone. */
  readonly failing?: OwnFailing;
  readonly limits?: OwnLimits;
}

/** A question that a site added: no rule names it, so it brings what follows when it fails. */
export interface OwnItem extends ProcedureItem {
  readonly item: OwnItemId;
}

/** A procedure is versioned data: a check points to the version it was done with, and a version in force is never edited. */
export interface Procedure {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly kind: CheckKind;
  readonly citation: string;
  readonly items: readonly ProcedureItem[];
  /** Own questions of the other kinds of check in force: a task may have to ask one of them again. */
  readonly own?: readonly OwnItem[];
  /** Limits that hold wherever this procedure is followed, over the site's own. */
  readonly settings?: SettingOverrides;
}
