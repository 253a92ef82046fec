import type { ItemId, Subject } from "@/lib/domain/items";
import type { Place, ShownLimit } from "@/lib/domain/rule";
import { shownLimit } from "@/lib/domain/rules/assess";
import { numeral, said } from "@/lib/domain/wording";
import type { Quantity } from "@/lib/units/quantity";

/** The limit of a question as a screen shows it: the figures, and one line of words. */
export interface ItemLimits {
  readonly atLeast: Quantity | null;
  readonly atMost: Quantity | null;
  readonly text: string;
}

export function itemLimits(item: ItemId, subject: Subject, place: Place): ItemLimits | null {
  const shown = shownLimit({ item, subject, place });
  return shown === null
    ? null
    : { atLeast: shown.atLeast ?? null, atMost: shown.atMost ?? null, text: limitText(shown) };
}

function limitText({ atLeast, atMost, over }: ShownLimit): string {
  if (over) return `Over ${said(over)}`;
  if (atLeast && atMost) return `${numeral(atLeast.value)} to ${said(atMost)}`;
  if (atLeast) return `At least ${said(atLeast)}`;
  return atMost ? `At most ${said(atMost)}` : "";
}
