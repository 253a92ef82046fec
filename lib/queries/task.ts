import type { Actor } from "@/lib/auth/actor";
import type { Evidence } from "@/lib/domain/evidence";
import { taskItems } from "@/lib/domain/procedure/decide";
import { questionsView } from "@/lib/queries/questions";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { tasksIn } from "@/lib/queries/tasks";
import { type TaskDetail, taskKey } from "@/lib/schemas/task";
import type { Tx } from "@/lib/storage/client";
import { spareCylinders } from "@/lib/storage/equipment";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { type OpenTask, openTask } from "@/lib/storage/tasks";
import { dateIn, type Instant, timestampOf } from "@/lib/units/time";

/** One open task with what finishing it asks for; null when it is no longer open, or could be the key of none. */
export const readTask = (actor: Actor, key: string, reading: Reading = appReading()): Promise<TaskDetail | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      if (!taskKey.safeParse(key).success) return null;
      const task = await openTask(tx, frame.scope.facilityId, key);
      const [view] = await tasksIn(tx, frame, now, actor.personId, { key });
      const holder = task && (await holderOfTask(tx, frame, task, now));
      if (!task || !view || !holder) return null;
      const items = holder.procedure ? taskItems(task.draft, holder.procedure, holder.evidence) : [];
      return {
        task: view,
        items: questionsView(items),
        swap: await swapOf(tx, frame, task, holder.evidence, now),
        at: timestampOf(now),
      };
    },
    reading,
  );

async function holderOfTask(tx: Tx, frame: Frame, task: OpenTask, now: Instant): Promise<Holder | null> {
  const rooms = task.holderKind === "room" ? [task.holderId] : [];
  const holders = await loadEvidence(tx, frame, rooms, task.workstationId ? [task.workstationId] : [], now);
  return holders.find(({ kind, id }) => kind === task.holderKind && id === task.holderId) ?? null;
}

/** For a task about a cylinder: what is on the yoke, and the spares that fit it. */
async function swapOf(
  tx: Tx,
  frame: Frame,
  task: OpenTask,
  { workstation }: Evidence,
  now: Instant,
): Promise<TaskDetail["swap"]> {
  const { subject } = task.draft;
  if (task.draft.kind !== "swap-cylinder" || subject?.kind !== "cylinder" || !workstation) return null;
  const fitted = workstation.fitted.cylinders.find(({ id }) => id === subject.id);
  if (!fitted) return null;
  const spares = await spareCylinders(tx, frame.scope.facilityId, fitted.gas, dateIn(frame.facility.timeZone, now));
  return {
    position: fitted.position,
    gas: fitted.gas,
    fitted: { id: fitted.id, serial: fitted.serial, size: fitted.size },
    spares: spares.map(({ id, serial, size, store, contents }) => ({ id, serial, size, store: store ?? "", contents })),
  };
}
