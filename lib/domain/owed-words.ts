import type { WorkstationEvidence } from "@/lib/domain/evidence";
import { type ItemId, itemOf, type Subject } from "@/lib/domain/items";
import { subjectName } from "@/lib/domain/wording";

export interface OwedInWords {
  readonly item: ItemId;
  readonly itemName: string;
  readonly subject: { kind: Subject["kind"]; id: string };
  readonly subjectName: string;
}

/** What is owed, as lines that a person reads. */
export const owedInWords = (
  owed: readonly { readonly item: ItemId; readonly subject: Subject }[],
  workstation: WorkstationEvidence | null,
): OwedInWords[] =>
  owed.map(({ item, subject }) => ({
    item,
    itemName: itemOf(item).name,
    subject: { ...subject },
    subjectName: subjectName(subject, workstation),
  }));
