import type { Actor } from "@/lib/auth/actor";
import { scopeOf } from "@/lib/auth/actor";
import type { Refusal } from "@/lib/commands/command";
import type { Surroundings } from "@/lib/commands/execute";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { may } from "@/lib/domain/permission";
import { findCheck, storeDraft } from "@/lib/storage/checks";
import { instant, timestampOf } from "@/lib/units/time";

const MOST_BYTES = 60_000;

/** Keeps what somebody is typing. Not evidence: one small mutable row, without history, gone when the check is signed. */
export async function saveDraft(
  surroundings: Surroundings,
  input: { readonly checkId: string; readonly answers: Readonly<Record<string, unknown>> },
  actor: Actor,
): Promise<Outcome<{ readonly checkId: string; readonly savedAt: string }, Refusal>> {
  if (!may(actor.roles, "save-draft")) return refused("not-allowed", `${actor.name} may not answer checks here.`);
  if (JSON.stringify(input.answers).length > MOST_BYTES)
    return refused("invalid", "A draft holds at most 60,000 characters.", "answers");
  const at = instant(surroundings.clock.now());
  return surroundings.database.inScope(scopeOf(actor), async (tx) => {
    const check = await findCheck(tx, actor.facility.id, input.checkId);
    if (!check) return refused("not-found", "There is no such check in your facility.", "checkId");
    await storeDraft(tx, actor.facility.id, {
      checkId: input.checkId,
      personId: actor.personId,
      answers: input.answers,
      at,
    });
    return done({ checkId: input.checkId, savedAt: timestampOf(at) });
  });
}
