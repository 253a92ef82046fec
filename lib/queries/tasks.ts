import type { Actor } from "@/lib/auth/actor";
import { checkDayAt } from "@/lib/domain/check-day";
import { onDutyFor } from "@/lib/domain/duty/decide";
import type { DutyNow } from "@/lib/domain/duty/model";
import type { OrderInput } from "@/lib/domain/plan-order";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import type { PlacedTask } from "@/lib/domain/task/model";
import { orderTasks } from "@/lib/domain/task-order";
import { plannedOnce } from "@/lib/queries/plan-memory";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { TaskList, TaskView } from "@/lib/schemas/task";
import { openCheckRecords } from "@/lib/storage/check-hands";
import type { Tx } from "@/lib/storage/client";
import { dutyAt } from "@/lib/storage/duty";
import { swapsWithoutSpare } from "@/lib/storage/equipment";
import { escalationsOfOpenTasks } from "@/lib/storage/escalations";
import type { Frame } from "@/lib/storage/facility-frame";
import { placeNow, type TaskPlace, taskPlaces } from "@/lib/storage/task-places";
import type { OpenTask } from "@/lib/storage/tasks";
import { type Only, openTasksAt } from "@/lib/storage/tasks-at";
import { dateIn, type Instant, instantOf, later, MINUTE, type Timestamp, timestampOf } from "@/lib/units/time";

/** The facility's open tasks in the order they should be done, each with its reason for standing there. */
export const readTasks = (actor: Actor, reading: Reading = appReading()): Promise<TaskList> =>
  inFacility(
    actor,
    async (tx, frame, now) => ({
      at: timestampOf(now),
      tasks: await tasksIn(tx, frame, now, actor.personId),
      duty: dutyNowView(await dutyNowIn(tx, frame, now)),
    }),
    reading,
  );

export const dutyNowView = ({ onRoster, people }: DutyNow): TaskList["duty"] => ({
  onRoster,
  people: people.map(({ roles, until, ...person }) => ({ ...person, roles: [...roles], until: timestampOf(until) })),
});

/** Who is on duty now, by the roster of the check day. */
export const dutyNowIn = (tx: Tx, frame: Frame, now: Instant): Promise<DutyNow> =>
  dutyAt(tx, frame.scope.facilityId, now, checkDayAt(checkClock(frame), now).date);

/** The tasks that are open at this moment, of the whole facility or of one place, ordered. */
export async function tasksIn(
  tx: Tx,
  frame: Frame,
  now: Instant,
  personId: string,
  only: Only = {},
): Promise<TaskView[]> {
  const { tasks: open, judgedNow } = await openTasksAt(tx, frame, now, only);
  const today = checkDayAt(checkClock(frame), now);
  const holders = open.map(({ holderId }) => holderId);
  const places = await taskPlaces(tx, frame.scope.facilityId, holders, personId, today);
  const placeOf = ({ holderId }: OpenTask) => {
    const place = places.get(holderId) ?? null;
    const holder = judgedNow.get(holderId);
    return place && holder ? placeNow(place, holder) : place;
  };
  const duty = await dutyNowIn(tx, frame, now);
  const asked = await askedAbout(tx, frame.scope.facilityId);
  const lacking = await tasksWithoutParts(tx, frame, open, now);
  // One place alone has no plan: what stands there is part of the whole facility's.
  const whole = Object.keys(only).length === 0;
  const begun = whole ? await checksBegun(tx, frame.scope.facilityId, today.from) : new Map();
  const inputs = open.map((task) => ({ ...orderInput(task, placeOf(task), lacking, begun), task }));
  const placed = whole ? plannedOnce(frame.scope.facilityId, inputs, duty, now) : orderTasks(inputs, now);
  return placed.map(({ task: { task }, ...standing }) =>
    taskViewOf(task, placeOf(task), standing, duty, asked.get(task.key) ?? null),
  );
}

/** Who is in the middle of a check, by workstation: it stays with them, whether or not they took the task first. */
async function checksBegun(tx: Tx, facilityId: string, since: Instant) {
  const open = await openCheckRecords(tx, facilityId, since);
  return new Map(
    open.map(({ workstation, heldById, heldBy, startedAt }) => [
      workstation.id,
      { personId: heldById, name: heldBy, at: instantOf(startedAt) },
    ]),
  );
}

/** Who is asked to see to what, by task. */
async function askedAbout(tx: Tx, facilityId: string): Promise<ReadonlyMap<string, TaskView["escalation"]>> {
  const open = (await escalationsOfOpenTasks(tx, facilityId)).filter(({ outcome }) => outcome === null);
  return new Map(
    open.map(({ taskKey, personId, name, at, answeredAt }) => [
      taskKey,
      { personId, name, at: timestampOf(at), answeredAt: answeredAt === null ? null : timestampOf(answeredAt) },
    ]),
  );
}

/** The swaps for which no store has a cylinder of that gas. */
async function tasksWithoutParts(
  tx: Tx,
  { scope, facility }: Frame,
  open: readonly OpenTask[],
  now: Instant,
): Promise<ReadonlySet<string>> {
  const swaps = open.flatMap(({ key, draft }) =>
    draft.kind === "swap-cylinder" && draft.subject ? [{ key, cylinderId: draft.subject.id }] : [],
  );
  return swapsWithoutSpare(tx, scope.facilityId, swaps, dateIn(facility.timeZone, now));
}

/** What the order of the work looks at. */
function orderInput(
  { key, draft, claim, workstationId }: OpenTask,
  place: TaskPlace | null,
  lacking: ReadonlySet<string>,
  begun: ReadonlyMap<string, NonNullable<OrderInput["claim"]>>,
): OrderInput {
  const checking = draft.kind === "check" && workstationId !== null ? (begun.get(workstationId) ?? null) : null;
  const has = claim ? { personId: claim.personId, name: claim.name, at: claim.since } : checking;
  return {
    key,
    mayDo: draft.mayDo,
    roomId: place?.room?.id ?? null,
    suite: place?.room?.suite ?? null,
    claim: has,
    lacksParts: lacking.has(key),
    severity: draft.severity,
    minutes: draft.minutes,
    roomName: place?.room?.name ?? null,
    walkingOrder: place?.walkingOrder ?? Number.MAX_SAFE_INTEGER,
    firstCase: place?.closed ? null : (place?.firstCase ?? null),
    setUpMinutes: place?.setUpMinutes ?? 0,
    claimed: has !== null,
  };
}

function readyByOf(place: TaskPlace | null): Timestamp | null {
  if (!place?.firstCase || place.closed) return null;
  return timestampOf(later(instantOf(place.firstCase), -place.setUpMinutes * MINUTE));
}

export function taskViewOf(
  task: OpenTask,
  place: TaskPlace | null,
  standing: Omit<PlacedTask<unknown>, "task">,
  duty: DutyNow,
  escalation: TaskView["escalation"],
): TaskView {
  const { draft, claim } = task;
  return {
    key: task.key,
    kind: draft.kind,
    title: draft.title,
    why: draft.why,
    severity: draft.severity,
    minutes: draft.minutes,
    mayDo: [...draft.mayDo],
    room: place?.room ?? null,
    workstation: place?.workstation ?? null,
    subject: draft.subject,
    firstCase: place?.firstCase ?? null,
    readyBy: readyByOf(place),
    rule: draft.rule,
    openedAt: timestampOf(task.openedAt),
    placed: standing.placed,
    ifItWaits: standing.ifItWaits,
    plannedFor: standing.plannedFor && { ...standing.plannedFor },
    claim: claim && { personId: claim.personId, name: claim.name, since: timestampOf(claim.since) },
    openCheckId: draft.kind === "check" ? (place?.openCheckId ?? null) : null,
    work: task.work && { ...task.work },
    couldNot: task.couldNot.map((one) => ({ ...one })),
    escalation,
    onDuty: onDutyFor(duty, draft.mayDo).map(({ name }) => name),
    walkingOrder: place?.walkingOrder ?? Number.MAX_SAFE_INTEGER,
  };
}
