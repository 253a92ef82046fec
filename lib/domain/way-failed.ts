import { itemOf, sameSubject } from "@/lib/domain/items";
import type { Finding } from "@/lib/domain/judgement";
import type { RuleContext } from "@/lib/domain/rule";
import type { ItemAbout } from "@/lib/domain/way-action";

/** The failing answers behind a reason: of its own subject, or of every one where the reason is about the whole machine. */
export function failedItemsOf({ items, subject }: Finding, context: RuleContext): ItemAbout[] {
  return context
    .failing()
    .filter(
      (one) =>
        items.includes(one.item) && (sameSubject(one.subject, subject) || itemOf(one.item).subject !== subject.kind),
    )
    .map((one) => ({ item: one.item, subject: one.subject }));
}
