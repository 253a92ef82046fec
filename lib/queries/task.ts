import type { Actor } from "@/lib/auth/actor";
import { SENSOR_POSITION } from "@/lib/domain/department-parts";
import type { Evidence } from "@/lib/domain/evidence";
import { expandProcedure, taskItems } from "@/lib/domain/procedure/decide";
import type { TaskWay } from "@/lib/domain/task-way";
import { wayOfTask } from "@/lib/domain/task-way";
import { questionsView } from "@/lib/queries/questions";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { sparePartsIn } from "@/lib/queries/spare-parts";
import { tasksIn } from "@/lib/queries/tasks";
import { type TaskDetail, taskKey } from "@/lib/schemas/task";
import type { Tx } from "@/lib/storage/client";
import { spareCylinders } from "@/lib/storage/equipment";
import { type Holder, loadEvidence } from "@/lib/storage/evidence";
import type { Frame } from "@/lib/storage/facility-frame";
import { openFaults } from "@/lib/storage/faults";
import { namesOf } from "@/lib/storage/names";
import type { OpenTask } from "@/lib/storage/tasks";
import { openTaskAt } from "@/lib/storage/tasks-at";
import { dateIn, type Instant, timestampOf } from "@/lib/units/time";

/** One open task with what finishing it asks for; null when it is no longer open, or could be the key of none. */
export const readTask = (actor: Actor, key: string, reading: Reading = appReading()): Promise<TaskDetail | null> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      if (!taskKey.safeParse(key).success) return null;
      const task = await openTaskAt(tx, frame, now, key);
      const [view] = await tasksIn(tx, frame, now, actor.personId, { key });
      const holder = task && (await holderOfTask(tx, frame, task, now));
      if (!task || !view || !holder) return null;
      const items = holder.procedure ? taskItems(task.draft, holder.procedure, holder.evidence) : [];
      return {
        task: view,
        items: questionsView(items),
        way: await wayView(tx, frame, wayOfTask(task.draft, holder.evidence), holder, now),
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

/** What the task opens, with what is known of it. What somebody else has dealt with meanwhile is no longer there to be dealt with. */
async function wayView(tx: Tx, frame: Frame, way: TaskWay, holder: Holder, now: Instant): Promise<TaskDetail["way"]> {
  const { workstation } = holder.evidence;
  const nowhere: TaskDetail["way"] = { kind: "elsewhere", texts: [] };
  switch (way.kind) {
    case "answers":
      return { kind: "answers" };
    case "elsewhere":
      return { kind: "elsewhere", texts: [...way.texts] };
    case "look-at-fault": {
      const faults = workstation ? await openFaults(tx, frame.scope.facilityId, workstation.id) : [];
      const fault = faults.find(({ id }) => id === way.faultId);
      return fault ? { kind: way.kind, fault: { ...fault } } : nowhere;
    }
    case "lift-hold": {
      const hold = workstation?.holds.find(({ id }) => id === way.holdId);
      if (!hold) return nowhere;
      const names = await namesOf(tx, [hold.by]);
      const { id, reason, since } = hold;
      return { kind: way.kind, hold: { id, name: names.get(hold.by) ?? "unknown", reason, since } };
    }
    case "fit-part":
      return (await fitView(tx, frame, way, holder, now)) ?? nowhere;
  }
}

/** What comes off, where it stands, and what could go on. */
async function fitView(
  tx: Tx,
  frame: Frame,
  { part, partId }: Extract<TaskWay, { kind: "fit-part" }>,
  { evidence, procedure }: Holder,
  now: Instant,
): Promise<Extract<TaskDetail["way"], { kind: "fit-part" }> | null> {
  const { workstation } = evidence;
  if (!workstation) return null;
  const { absorbent, oxygenSensor } = workstation.fitted;
  const charge = absorbent.find(({ id }) => id === partId);
  const on =
    part === "absorbent"
      ? charge && { position: charge.position, id: charge.id, tag: charge.tag, product: charge.product.name }
      : oxygenSensor && { ...oxygenSensor, position: SENSOR_POSITION, product: `${oxygenSensor.kind} sensor` };
  if (!on) return null;
  const asked = procedure ? expandProcedure(procedure, evidence).map(({ item }) => item) : [];
  return {
    kind: "fit-part",
    part,
    position: on.position,
    takesOff: { id: on.id, tag: on.tag },
    product: on.product,
    asked: [...new Set(asked)],
    spares: await sparePartsIn(tx, frame, workstation, now),
  };
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
