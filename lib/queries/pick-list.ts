import type { Actor } from "@/lib/auth/actor";
import { naturalOrder } from "@/lib/domain/natural-order";
import { needsOfTask, pickLines } from "@/lib/domain/pick-list";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { tasksIn } from "@/lib/queries/tasks";
import type { TaskView } from "@/lib/schemas/task";
import type { PickList } from "@/lib/schemas/work";
import { loadEvidence } from "@/lib/storage/evidence";
import { stockLines } from "@/lib/storage/spare-parts";
import { openTasksAt } from "@/lib/storage/tasks-at";
import { dateIn, timestampOf } from "@/lib/units/time";

/** Several tasks as one walk: what to take along and from where, and the rooms in the order in which they are passed. */
export const readPickList = (
  actor: Actor,
  { keys }: { readonly keys: readonly string[] },
  reading: Reading = appReading(),
): Promise<PickList> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const open = (await openTasksAt(tx, frame, now)).tasks.filter(({ key }) => keys.includes(key));
      const views = (await tasksIn(tx, frame, now, actor.personId)).filter(({ key }) => keys.includes(key));
      const workstations = [...new Set(open.flatMap(({ workstationId }) => (workstationId ? [workstationId] : [])))];
      const rooms = [...new Set(open.flatMap(({ holderKind, holderId }) => (holderKind === "room" ? [holderId] : [])))];
      const holders = new Map(
        (await loadEvidence(tx, frame, rooms, workstations, now)).map((holder) => [holder.id, holder]),
      );
      const needs = open.flatMap(({ draft, holderId }) =>
        needsOfTask(draft, holders.get(holderId)?.evidence.workstation ?? null),
      );
      const stock = await stockLines(tx, facilityId, dateIn(frame.facility.timeZone, now));
      return {
        parts: pickLines(needs, stock).map((line) => ({ ...line, stores: [...line.stores] })),
        route: routeOf(views),
        minutes: views.reduce((sum, { minutes }) => sum + minutes, 0),
        gone: keys.filter((key) => !views.some((task) => task.key === key)),
        at: timestampOf(now),
      };
    },
    reading,
  );

/** By the walk through the suites; what stands in a store comes last. */
function routeOf(tasks: readonly TaskView[]): PickList["route"] {
  const inOrder = [...tasks].sort(
    (left, right) => left.walkingOrder - right.walkingOrder || naturalOrder(placeOf(left), placeOf(right)),
  );
  const route: PickList["route"] = [];
  for (const task of inOrder) {
    const suite = task.room?.suite ?? null;
    let stretch = route.at(-1);
    if (stretch?.suite !== suite || stretch === undefined) {
      stretch = { suite, rooms: [] };
      route.push(stretch);
    }
    let stop = stretch.rooms.at(-1);
    if (stop?.room !== placeOf(task) || stop === undefined) {
      stop = { room: placeOf(task), tasks: [] };
      stretch.rooms.push(stop);
    }
    stop.tasks.push({ key: task.key, title: task.title, minutes: task.minutes });
  }
  return route;
}

const placeOf = ({ room, workstation }: TaskView): string => room?.name ?? workstation?.tag ?? "";
