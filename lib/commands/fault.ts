import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { decideLook, decideReport } from "@/lib/domain/fault/decide";
import { done, refused } from "@/lib/domain/outcome";
import { lookAtFaultReply, lookAtFaultRequest, reportFaultReply, reportFaultRequest } from "@/lib/schemas/moves";
import { endFault, insertFault } from "@/lib/storage/faults";

const noWorkstation = () =>
  refused("not-found", "There is no workstation with this id in your facility.", "workstationId");

/** A fault in somebody's own words. Whether it stops the workstation until somebody has looked, the reporter says. */
export const reportFault = command({
  name: "report-fault",
  summary: "Report a fault of a workstation in words, and whether you would still use it.",
  schema: reportFaultRequest,
  reply: reportFaultReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (_tx, input, _context, holders) => workstationAtHand(input.workstationId, holders),
  decide: (holder, { text, wouldNotUse }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation) return noWorkstation();
    const report = decideReport(workstation, text, wouldNotUse);
    return report.ok ? done({ where: placeName(holder) }) : report;
  },
  apply: async (tx, { where }, { workstationId, text, wouldNotUse }, context) => {
    const faultId = context.newId();
    await insertFault(tx, context.begun.scope.facilityId, {
      id: faultId,
      workstationId,
      text,
      wouldNotUse,
      by: context.actor.personId,
      at: context.now,
    });
    return {
      reply: { faultId },
      note: {
        text: `Reported a fault in ${where}${wouldNotUse ? ", would not use it" : ""}: ${text}`,
        data: { faultId, workstationId, wouldNotUse },
      },
    };
  },
});

export const lookAtFault = command({
  name: "look-at-fault",
  summary: "Say what came of looking at a reported fault; it no longer stands in the way.",
  schema: lookAtFaultRequest,
  reply: lookAtFaultReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (_tx, input, _context, holders) => workstationAtHand(input.workstationId, holders),
  decide: (holder, { faultId }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation) return noWorkstation();
    const look = decideLook(workstation, faultId);
    return look.ok ? done({ where: placeName(holder), fault: look.value }) : look;
  },
  apply: async (tx, { where, fault }, { faultId, workstationId, conclusion }, context) => {
    const ended = await endFault(tx, context.begun.scope.facilityId, {
      id: faultId,
      by: context.actor.personId,
      conclusion,
      at: context.now,
    });
    if (!ended) return refused("already-done", "Somebody looked at this fault in the meantime. Nothing was changed.");
    return {
      reply: { faultId },
      note: {
        text: `Looked at a fault in ${where}: ${conclusion}`,
        details: [`Reported: ${fault.text}`],
        data: { faultId, workstationId },
      },
    };
  },
});
