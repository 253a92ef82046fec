import type { ItemId } from "@/lib/domain/items";
import type { AnswerForm, AppliesWhen, ProcedureItem } from "@/lib/domain/procedure/model";

/** The words of one item, in the order a person meets them. */
export interface ItemWords {
  readonly title: string;
  readonly how: string;
  readonly why: string;
  readonly whenItFails: string;
}

export const yesNo = (yes: string, no: string): AnswerForm => ({ kind: "pass", yes, no });

export function procedureItem(
  item: ItemId,
  words: ItemWords,
  answer: AnswerForm = yesNo("Works", "Fails or absent"),
  applies: AppliesWhen = {},
  by: ProcedureItem["by"] = "either",
): ProcedureItem {
  return { item, ...words, answer, by, applies };
}

/** The same item, marked as one that the same user need not repeat on successive cases. */
export const skippable = (item: ProcedureItem): ProcedureItem => ({ ...item, sameUserMaySkip: true });
