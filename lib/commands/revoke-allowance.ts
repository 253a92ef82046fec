import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { decideRevoke } from "@/lib/domain/allowance";
import { done, refused } from "@/lib/domain/outcome";
import { revokeAllowanceReply, revokeAllowanceRequest } from "@/lib/schemas/allowances";
import { revokeAllowances } from "@/lib/storage/holds";
import { timestampOf } from "@/lib/units/time";

/** Takes back what was allowed: the limit is then one that nobody has allowed. */
export const revokeAllowance = command({
  name: "revoke-allowance",
  summary: "Take back use with a limit before its time is over, with a reason.",
  schema: revokeAllowanceRequest,
  reply: revokeAllowanceReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (_tx, input, _context, holders) => workstationAtHand(input.workstationId, holders),
  decide: (holder, { rule }, { begun, now }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    const revoking = decideRevoke(workstation.allowed, rule, begun.roles, now);
    return revoking.ok ? done({ where: placeName(holder) }) : revoking;
  },
  apply: async (tx, { where }, { workstationId, rule, reason }, context) => {
    const revoked = { by: context.actor.personId, reason, at: context.now };
    if (!(await revokeAllowances(tx, context.begun.scope.facilityId, workstationId, rule, revoked)))
      return refused("already-done", "It was taken back in the meantime. Nothing was changed.");
    return {
      reply: { workstationId, rule, revokedAt: timestampOf(context.now) },
      note: {
        text: `Took back what was allowed for ${where} (${rule.replaceAll("-", " ")}): ${reason}`,
        data: { workstationId, rule },
      },
    };
  },
});
