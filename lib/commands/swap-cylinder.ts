import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { decideSwap } from "@/lib/domain/cylinder/decide";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { owesWholeCheck } from "@/lib/domain/task/decide";
import { swapCylinderReply, swapCylinderRequest } from "@/lib/schemas/task";
import {
  anyStore,
  endFitting,
  findCylinder,
  findStore,
  insertEvent,
  insertFitting,
  moveCylinder,
} from "@/lib/storage/equipment";
import { dateIn } from "@/lib/units/time";

/** Takes a cylinder off a yoke and fits another. The swap owes its own recheck: gauge, yoke leak, shut again. */
export const swapCylinder = command({
  name: "swap-cylinder",
  summary: "Fit another cylinder to a yoke; the pin index must match.",
  schema: swapCylinderRequest,
  reply: swapCylinderReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: async (tx, input, context, holders) => {
    const { facilityId } = context.begun.scope;
    const holder = await workstationAtHand(input.workstationId, holders);
    return {
      holder,
      cylinder: await findCylinder(tx, facilityId, input.cylinder),
      store: input.toStoreId ? await findStore(tx, facilityId, input.toStoreId) : await anyStore(tx, facilityId),
    };
  },
  decide: ({ holder, cylinder, store }, input, { begun, now }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    if (!cylinder) {
      const asked = "serial" in input.cylinder ? `with the serial number ${input.cylinder.serial}` : "with this id";
      return refused(
        "not-found",
        `There is no cylinder ${asked}. Read the label again, or add the cylinder first.`,
        "cylinder",
      );
    }
    if (input.toStoreId && !store)
      return refused("not-found", "There is no store with this id in your facility.", "toStoreId");
    const today = dateIn(begun.facility.timeZone, now);
    const swap = decideSwap(workstation, input.position, cylinder, today, input.takesOff);
    return swap.ok
      ? done({
          ...swap.value,
          workstation,
          cylinder,
          store,
          roomId: holder.evidence.room?.id ?? null,
          where: placeName(holder),
          // Where the whole check is owed anyway, the swap's own items are part of it and no task of their own.
          wholeCheckOwed: owesWholeCheck(judge(holder.evidence)),
        })
      : swap;
  },
  apply: async (tx, { workstation, cylinder, takenOff, store, roomId, where, wholeCheckOwed }, input, context) => {
    const { facilityId } = context.begun.scope;
    if (takenOff) {
      await endFitting(tx, facilityId, takenOff.id, context.now);
      await moveCylinder(tx, facilityId, takenOff.id, input.takenOff, store);
    }
    const fitted = await insertFitting(
      tx,
      facilityId,
      {
        id: context.newId(),
        kind: "cylinder",
        itemId: cylinder.id,
        workstationId: workstation.id,
        position: input.position,
      },
      context.now,
    );
    if (!fitted) return refused("taken", "The yoke or the cylinder was taken in the meantime. Nothing was changed.");
    await moveCylinder(tx, facilityId, cylinder.id, "in-use", null);
    await insertEvent(tx, facilityId, {
      id: context.newId(),
      kind: "cylinder-swapped",
      subject: { kind: "cylinder", id: cylinder.id },
      workstationId: workstation.id,
      roomId: null,
      at: context.now,
      by: context.actor.personId,
    });
    return {
      reply: {
        workstationId: workstation.id,
        position: input.position,
        fitted: cylinder.serial,
        recheckTaskKey: wholeCheckOwed ? null : `recheck:${workstation.id}`,
      },
      note: {
        text: `Swapped the cylinder on yoke ${input.position} of ${where}: ${takenOff ? `${takenOff.serial} off (${input.takenOff}), ` : ""}${cylinder.serial} on`,
        data: {
          workstationId: workstation.id,
          roomId,
          position: input.position,
          off: takenOff?.id ?? null,
          on: cylinder.id,
          takenOff: input.takenOff,
        },
      },
    };
  },
});
