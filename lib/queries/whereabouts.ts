import type { Actor } from "@/lib/auth/actor";
import { isId } from "@/lib/queries/evidence";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { roomsWith, workstationTag } from "@/lib/storage/places";
import { openTasksAt } from "@/lib/storage/tasks-at";

/** Where the link on a workstation's label leads: the room it stands in; for a spare the check that it owes, if it owes one. */
export interface Whereabouts {
  readonly tag: string;
  readonly roomId: string | null;
  readonly taskKey: string | null;
}

/** Null when the facility has no such workstation. */
export const readWhereabouts = (
  actor: Actor,
  workstationId: string,
  reading: Reading = appReading(),
): Promise<Whereabouts | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const tag = isId(workstationId) ? await workstationTag(tx, facilityId, workstationId) : null;
      if (tag === null) return null;
      const [roomId = null] = await roomsWith(tx, facilityId, [workstationId]);
      if (roomId !== null) return { tag, roomId, taskKey: null };
      const { tasks } = await openTasksAt(tx, frame, now, { holders: [workstationId] });
      return { tag, roomId, taskKey: tasks.find(({ draft }) => draft.kind === "check")?.key ?? null };
    },
    reading,
  );
