import type { Context } from "@/lib/commands/command";
import { refused } from "@/lib/domain/outcome";
import type { NewestVersion } from "@/lib/domain/procedure-change/decide";
import type { ProcedureDraft } from "@/lib/domain/procedure-change/model";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { procedureDraft } from "@/lib/storage/procedure-drafts";
import { newestVersion } from "@/lib/storage/procedures";
import { instantOf } from "@/lib/units/time";

/** A draft with the newest version of its kind, which it is compared with. */
export interface DraftAtHand {
  readonly draft: ProcedureDraft | null;
  readonly newest: NewestVersion | null;
}

export async function draftAtHand(
  tx: Tx,
  { draftId }: { readonly draftId: string },
  { begun }: Context,
): Promise<DraftAtHand> {
  const { facilityId } = begun.scope;
  const draft = await procedureDraft(tx, facilityId, draftId);
  return { draft, newest: draft && (await newestOf(tx, facilityId, draft.kind)) };
}

export async function newestOf(tx: Tx, facilityId: string, kind: CheckKind): Promise<NewestVersion | null> {
  const found = await newestVersion(tx, facilityId, kind);
  return (
    found && { id: found.id, version: found.version, inForceFrom: instantOf(found.inForceFrom), text: found.document }
  );
}

/** Of two at once one wins; the other's text is still where it was typed. */
export const draftMovedOn = () =>
  refused("moved-on", "Somebody else changed this draft in the meantime. Read it again.", "revision");
