import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import { holdWorkstationReply, holdWorkstationRequest, liftHoldReply, liftHoldRequest } from "@/lib/schemas/room";
import { endHold, insertHold } from "@/lib/storage/holds";

/** "Do not use, I am looking at it": stops the workstation until the holder or the charge provider lifts it. */
export const holdWorkstation = command({
  name: "hold-workstation",
  summary: "Hold a workstation: it may not be used until the hold is lifted.",
  schema: holdWorkstationRequest,
  reply: holdWorkstationReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (_tx, input, _context, holders) => workstationAtHand(input.workstationId, holders),
  decide: (holder, _input, { actor }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    if (workstation.holds.some(({ by }) => by === actor.personId))
      return refused("already-done", "You hold this workstation already.");
    return done({ where: placeName(holder) });
  },
  apply: async (tx, { where }, input, context) => {
    const id = context.newId();
    await insertHold(tx, context.begun.scope.facilityId, {
      id,
      workstationId: input.workstationId,
      reason: input.reason,
      by: context.actor.personId,
      role: context.role,
      at: context.now,
    });
    return {
      reply: { holdId: id },
      note: { text: `Held ${where}: ${input.reason}`, data: { holdId: id, workstationId: input.workstationId } },
    };
  },
});

export const liftHold = command({
  name: "lift-hold",
  summary: "Lift a hold with a reason: its holder or the charge provider.",
  schema: liftHoldRequest,
  reply: liftHoldReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (_tx, input, _context, holders) => workstationAtHand(input.workstationId, holders),
  decide: (holder, input, { actor, begun }) => {
    const hold = holder?.evidence.workstation?.holds.find(({ id }) => id === input.holdId);
    if (!holder || !hold)
      return refused("not-found", "This hold is not in force: it may have been lifted already.", "holdId");
    if (hold.by !== actor.personId && !begun.roles.includes("charge-provider"))
      return refused("not-yours", "Only who holds the workstation, or the charge provider, lifts the hold.");
    return done({ where: placeName(holder) });
  },
  apply: async (tx, { where }, input, context) => {
    const lifted = await endHold(tx, context.begun.scope.facilityId, {
      id: input.holdId,
      by: context.actor.personId,
      reason: input.reason,
      at: context.now,
    });
    if (!lifted) return refused("already-done", "The hold was lifted in the meantime. Nothing was changed.");
    return {
      reply: { holdId: input.holdId },
      note: {
        text: `Lifted the hold on ${where}: ${input.reason}`,
        data: { holdId: input.holdId, workstationId: input.workstationId },
      },
    };
  },
});
