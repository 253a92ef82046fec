import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { signedAs } from "@/lib/domain/check/model";
import { checkDayAt } from "@/lib/domain/check-day";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { startCheckReply, startCheckRequest } from "@/lib/schemas/check";
import { findCheck, insertCheck, openChecks } from "@/lib/storage/checks";
import type { Holder } from "@/lib/storage/evidence";

interface Decided {
  /** The open check to go on with, or null for a new one. */
  readonly resume: string | null;
  readonly holder: Holder;
}

/** Opens a full check on a workstation, or goes on with the one this person has open there today. */
export const startCheck = command({
  name: "start-check",
  summary: "Open a full check on a workstation, or go on with your own open one.",
  schema: startCheckRequest,
  reply: startCheckReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: async (tx, input, context, holders) => {
    const holder = await workstationAtHand(input.workstationId, holders);
    const since = checkDayAt(checkClock(context.begun), context.now).from;
    const mine = await openChecks(
      tx,
      context.begun.scope.facilityId,
      input.workstationId,
      context.actor.personId,
      since,
    );
    const open = mine[0] ? await findCheck(tx, context.begun.scope.facilityId, mine[0]) : null;
    return { holder, open };
  },
  decide: ({ holder, open }, input) => {
    if (!holder?.evidence.workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    if (!holder.evidence.procedure)
      return refused("not-found", "No daily procedure is in force here; a manager can put one in force.");
    if (open && open.kind === input.kind && !signedAs(open, "performed"))
      return done<Decided>({ resume: open.id, holder });
    return done<Decided>({ resume: null, holder });
  },
  apply: async (tx, { resume, holder }, input, context) => {
    const where = placeName(holder);
    if (resume)
      return {
        reply: { checkId: resume, resumed: true },
        note: { text: `Went on with the check of ${where}`, data: { checkId: resume } },
      };
    const id = context.newId();
    await insertCheck(tx, context.begun.scope.facilityId, {
      id,
      procedureId: holder.evidence.procedure?.id ?? null,
      kind: input.kind,
      workstationId: input.workstationId,
      roomId: holder.evidence.room?.id ?? null,
      startedAt: context.now,
      startedBy: context.actor.personId,
      taskKey: null,
    });
    return {
      reply: { checkId: id, resumed: false },
      note: {
        text: `Started the ${input.kind === "daily" ? "daily" : "first-user"} check of ${where}`,
        data: { checkId: id, workstationId: input.workstationId },
      },
    };
  },
});
