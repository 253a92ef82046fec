import type { Context } from "@/lib/commands/command";
import { refused } from "@/lib/domain/outcome";
import { type CheckItem, expandProcedure } from "@/lib/domain/procedure/decide";
import type { Procedure } from "@/lib/domain/procedure/model";
import type { Role } from "@/lib/domain/vocabulary";
import { findProcedure } from "@/lib/storage/check-reading";
import { type CheckRecord, findCheck } from "@/lib/storage/checks";
import type { Tx } from "@/lib/storage/client";
import type { Holder } from "@/lib/storage/evidence";
import { asWho, namesOf } from "@/lib/storage/names";
import type { OpenTask } from "@/lib/storage/tasks";

/** What a command about a check has at hand: the check, where it is now, and who signed it. */
export interface CheckAtHand {
  readonly check: CheckRecord | null;
  readonly holder: Holder | null;
  /** The version the check was begun with; it goes on with that one whatever came into force since. */
  readonly procedure: Procedure | null;
  readonly who: (personId: string) => string;
}

export async function checkAtHand(
  tx: Tx,
  { checkId }: { readonly checkId: string },
  context: Context,
  holders: () => Promise<readonly Holder[]>,
): Promise<CheckAtHand> {
  const check = await findCheck(tx, context.begun.scope.facilityId, checkId);
  const holder = check && (await workstationAtHand(check.workstationId, holders));
  const procedure = check && holder ? await procedureOfCheck(tx, context.begun.scope.facilityId, check, holder) : null;
  const names = await namesOf(tx, check?.signatures.map(({ personId }) => personId) ?? []);
  return { check, holder, procedure, who: asWho(names) };
}

export async function procedureOfCheck(
  tx: Tx,
  facilityId: string,
  { procedureId }: CheckRecord,
  { procedure, evidence }: Holder,
): Promise<Procedure | null> {
  if (procedureId === null || procedureId === evidence.procedure?.id) return procedure;
  return findProcedure(tx, facilityId, procedureId);
}

/** What a check asks where its workstation stands now, by the version it was begun with. */
export const askedIn = (check: CheckRecord, procedure: Procedure, { evidence }: Holder): CheckItem[] =>
  expandProcedure(procedure, evidence, check.shortened);

/** Where a workstation is now, with its evidence; null when the facility has no such workstation. */
export const workstationAtHand = async (
  id: string,
  holders: () => Promise<readonly Holder[]>,
): Promise<Holder | null> => (await holders()).find(({ workstationId }) => workstationId === id) ?? null;

/** How a person calls the place: the room, or a spare's own tag. */
export const placeName = ({ evidence }: Holder): string => evidence.room?.name ?? evidence.workstation?.tag ?? "";

/** The refusal of a task that is not open any more: by then somebody has cleared what it was about. */
export const taskIsGone = () =>
  refused("not-found", "This task is no longer open: what it was about has been cleared.", "key");

/** The refusal for somebody whose roles do not include the task's; null for who may do it. */
export function taskIsForOthers({ draft }: Pick<OpenTask, "draft">, roles: readonly Role[]) {
  if (draft.mayDo.some((role) => roles.includes(role))) return null;
  return refused("not-allowed", `This task is for: ${draft.mayDo.join(", ").replaceAll("-", " ")}.`);
}
