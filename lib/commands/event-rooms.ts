import { eventTask, stillOwed } from "@/lib/domain/event/decide";
import type { DepartmentEvent } from "@/lib/domain/event/model";
import { judge } from "@/lib/domain/judge";
import type { Tx } from "@/lib/storage/client";
import { departmentEvents, putEventTasks } from "@/lib/storage/department-events";
import { loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { everyHolder } from "@/lib/storage/places";
import type { Instant } from "@/lib/units/time";

/** The rooms that have still to show that they are back, by name, as everything stands in this transaction. */
export async function roomsLeft(tx: Tx, frame: Frame, event: DepartmentEvent, now: Instant): Promise<string[]> {
  const { workstations } = await everyHolder(tx, frame.scope.facilityId);
  const holders = await loadEvidence(tx, frame, event.rooms, workstations, now);
  return holders
    .filter(({ kind, evidence }) => kind === "room" && stillOwed(event, evidence, judge(evidence)).length > 0)
    .map(({ evidence }) => evidence.room?.name ?? "");
}

/** The tasks of the open events again, from the events alone. */
export async function rebuildEventTasks(tx: Tx, frame: Frame, now: Instant): Promise<void> {
  const { facilityId } = frame.scope;
  const open = await departmentEvents(tx, facilityId, {});
  for (const event of open) {
    const left = event.drill || event.kind === "recall" ? event.rooms : await roomsLeft(tx, frame, event, now);
    await putEventTasks(tx, facilityId, [{ eventId: event.id, draft: eventTask(event, left.length) }], now);
  }
}
