import type { ItemId, Subject } from "@/lib/domain/items";
import type { ResolvedForm } from "@/lib/domain/procedure-form";
import type { Place, ShownLimit } from "@/lib/domain/rule";
import { shownLimit } from "@/lib/domain/rules/assess";
import { numeral, said } from "@/lib/domain/wording";
import { type Quantity, quantity, type Unit, valueIn } from "@/lib/units/quantity";

/** The limit of a question as a screen shows it: the figures, and one line of words. */
export interface ItemLimits {
  readonly atLeast: Quantity | null;
  readonly atMost: Quantity | null;
  readonly text: string;
}

/** Given in the unit that is typed, where a limit was set in another unit of pressure. */
export function itemLimits(item: ItemId, subject: Subject, place: Place, form: ResolvedForm): ItemLimits | null {
  const shown = shownLimit({ item, subject, place });
  if (shown === null) return null;
  const unit = form.kind === "number" || form.kind === "gauge" ? form.unit : null;
  const typed = {
    atLeast: inUnit(shown.atLeast, unit),
    atMost: inUnit(shown.atMost, unit),
    over: inUnit(shown.over, unit),
  };
  return { atLeast: typed.atLeast ?? null, atMost: typed.atMost ?? null, text: limitText(typed) };
}

function inUnit(limit: Quantity | undefined, unit: Unit | null): Quantity | undefined {
  const value = limit === undefined || unit === null ? null : valueIn(limit, unit);
  return value === null || unit === null ? limit : quantity(value, unit);
}

function limitText({ atLeast, atMost, over }: ShownLimit): string {
  if (over) return `Over ${said(over)}`;
  if (atLeast && atMost) return `${numeral(atLeast.value)} to ${said(atMost)}`;
  if (atLeast) return `At least ${said(atLeast)}`;
  return atMost ? `At most ${said(atMost)}` : "";
}
