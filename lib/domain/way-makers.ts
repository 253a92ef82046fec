import type { Finding, Judgement } from "@/lib/domain/judgement";
import { PERMISSIONS } from "@/lib/domain/permission";
import type { RuleContext } from "@/lib/domain/rule";
import { actionMinutes } from "@/lib/domain/rules/policy/action-minutes";
import { morning } from "@/lib/domain/rules/policy/morning";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { Role } from "@/lib/domain/vocabulary";
import type { Action, ItemAbout } from "@/lib/domain/way-action";
import { failedItemsOf } from "@/lib/domain/way-failed";
import { itemsInWords } from "@/lib/domain/wording";
import { type Quantity, valueIn } from "@/lib/units/quantity";

/** Where the reason stands: the judgement and the questions that can still be asked of its evidence. */
export interface Scene {
  readonly judgement: Judgement;
  readonly context: RuleContext;
}

/** What can be done about a reason: any one of these. */
export type Maker = (reason: Finding, scene: Scene) => readonly Action[];

export const ENGINEER: readonly Role[] = ["biomedical-engineer"];
export const FITTERS: readonly Role[] = ["technician", "biomedical-engineer"];
export const CHECKERS = PERMISSIONS["finish-task"];

export const minutesOf = (time: Quantity): number => valueIn(time, "min") ?? 0;

export const action = (
  kind: Action["kind"],
  text: string,
  minutes: number,
  mayDo: readonly Role[],
  more: Partial<Action> = {},
): Action => ({ kind, text, minutes, mayDo, together: false, items: [], subject: null, about: null, ...more });

export const ofAction = ({ context }: Scene) => valuesOf(actionMinutes, context.evidence);
export const ofMorning = ({ context }: Scene) => valuesOf(morning, context.evidence);

/** Put right what failed, and look again. */
export function generic(reason: Finding, scene: Scene): readonly Action[] {
  const items = failedItemsOf(reason, scene.context);
  const asked = items.length > 0 ? items : standingItems(reason);
  return asked.length === 0 ? [] : [putRight(asked, scene)];
}

const standingItems = ({ items, subject, severity }: Finding): ItemAbout[] =>
  severity === "due" ? items.map((item) => ({ item, subject })) : [];

export function putRight(items: readonly ItemAbout[], scene: Scene): Action {
  const words = itemsInWords(items, scene.context.evidence.workstation);
  return action("put-right", `Put right and look again: ${words}`, minutesOf(ofAction(scene).putRight), CHECKERS, {
    items,
  });
}
