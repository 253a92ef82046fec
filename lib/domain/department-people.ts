import type {
  Department,
  DepartmentRead,
  ListRecord,
  ListRow,
  PersonRecord,
  PersonRow,
  ServiceRecord,
  ServiceRow,
} from "@/lib/domain/department/model";
import { type Merged, merge, refer, type Tell } from "@/lib/domain/department-merge";
import type { Places } from "@/lib/domain/department-places";

interface Given {
  readonly tell: Tell;
  readonly read: DepartmentRead;
  readonly there: Department;
  readonly places: Places;
  readonly newId: () => string;
}

export function mergeService({ tell, read, there, places }: Given): Merged<ServiceRecord> {
  const tagOf = (id: string) => places.workstations.entries.find(({ record }) => record.id === id)?.record.tag ?? id;
  const file = "service";
  return merge<ServiceRow, ServiceRecord>(tell, {
    file,
    rows: read.rows.service,
    existing: there.records.service,
    column: "workstation",
    ofRow: ({ workstation, plan }) => [workstation, plan],
    ofRecord: ({ workstationId, plan }) => [tagOf(workstationId), plan],
    build: ({ line, workstation, ...rest }) => {
      const { due, windowFrom, windowTo } = rest;
      if (windowFrom > due)
        tell({
          file,
          line,
          column: "window from",
          value: windowFrom,
          message: `The window cannot begin after the service is due, on ${due}.`,
        });
      if (windowTo < due)
        tell({
          file,
          line,
          column: "window to",
          value: windowTo,
          message: `The window cannot end before the service is due, on ${due}.`,
        });
      const on = refer(tell, read, places.workstations, "workstation", workstation, {
        file,
        line,
        column: "workstation",
      });
      return { ...rest, workstationId: on?.id ?? "" };
    },
  });
}

export function mergeList({ tell, read, there, places }: Given): Merged<ListRecord> {
  const nameOf = (id: string) => places.rooms.entries.find(({ record }) => record.id === id)?.record.name ?? id;
  const file = "list";
  return merge<ListRow, ListRecord>(tell, {
    file,
    rows: read.rows.list,
    existing: there.records.list,
    column: "room",
    ofRow: ({ date, room }) => [date, room],
    ofRecord: ({ date, roomId }) => [date, nameOf(roomId)],
    build: ({ line, room, needs, ...rest }) => {
      const { firstCase, ends } = rest;
      if (firstCase !== null && ends !== null && ends <= firstCase) {
        tell({
          file,
          line,
          column: "ends",
          value: ends,
          message: `The list must end after its first case at ${firstCase}, on the same day.`,
        });
      }
      if (firstCase === null && ends !== null) {
        tell({
          file,
          line,
          column: "first case",
          value: null,
          message: `A list that ends at ${ends} needs the time of its first case.`,
        });
      }
      const where = refer(tell, read, places.rooms, "room", room, { file, line, column: "room" });
      return { ...rest, roomId: where?.id ?? "", needs: [...needs].sort() };
    },
  });
}

export function mergePeople({ tell, read, there, newId }: Given, mayChangePeople: boolean): Merged<PersonRecord> {
  const file = "people";
  if (read.rowCounts.people > 0 && !mayChangePeople) {
    tell({
      file,
      line: 1,
      column: null,
      value: null,
      message: "Only an administrator may import people. Leave the people file out, or ask an administrator.",
    });
  }
  const people = merge<PersonRow, PersonRecord>(tell, {
    file,
    rows: read.rows.people,
    existing: there.records.people,
    column: "user id",
    ofRow: ({ userId }) => [userId],
    ofRecord: ({ userId }) => [userId],
    build: ({ line, userId, name, roles, initialPassword }, was) => {
      if (was === null && there.userIdsTaken.includes(userId)) {
        tell({
          file,
          line,
          column: "user id",
          value: userId,
          message: `The user id ${userId} is taken. Choose another.`,
        });
      } else if (was === null && initialPassword === null) {
        tell({
          file,
          line,
          column: "initial password",
          value: null,
          message: `${name} is new here and needs an initial password of at least 12 characters.`,
        });
      }
      return { id: was?.id ?? newId(), userId, name, roles: [...roles].sort() };
    },
  });
  keepAnAdministrator(tell, there, people);
  return people;
}

/** Nobody may lock everybody out: without an administrator no one could give the role back. */
function keepAnAdministrator(tell: Tell, there: Department, people: Merged<PersonRecord>): void {
  const isAdministrator = ({ roles }: PersonRecord) => roles.includes("administrator");
  if (!there.records.people.some(isAdministrator) || people.entries.some(({ record }) => isAdministrator(record)))
    return;
  const last = people.entries.find(({ was }) => was !== null && isAdministrator(was));
  if (last?.line) {
    const message = `${last.record.name} is the last administrator here. Keep the role administrator on one person at least.`;
    tell({ file: "people", line: last.line, column: "roles", value: last.record.roles.join("|"), message });
  }
}
