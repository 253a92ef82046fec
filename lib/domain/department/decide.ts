import type {
  AbsorbentRecord,
  CylinderRecord,
  Department,
  DepartmentFile,
  DepartmentRead,
  DepartmentRecords,
  Fitted,
  ModelRecord,
  PersonRecord,
  Problem,
  SensorRecord,
  VaporizerRecord,
  WorkstationRecord,
} from "@/lib/domain/department/model";
import { checkFittings } from "@/lib/domain/department-fitting";
import { added, changeOf, type Entry, equal, type Merged, type Tell, written } from "@/lib/domain/department-merge";
import { mergeParts, type Parts } from "@/lib/domain/department-parts";
import { mergeList, mergePeople, mergeService } from "@/lib/domain/department-people";
import { isMove, mergePlaces, type Places } from "@/lib/domain/department-places";
import type { Subject } from "@/lib/domain/items";
import type { EventKind } from "@/lib/domain/vocabulary";

export interface Count {
  readonly file: DepartmentFile;
  readonly rows: number;
  readonly added: number;
  readonly changed: number;
  readonly same: number;
}

export type PartKind = "cylinder" | "vaporizer" | "absorbent" | "oxygen-sensor";

export interface NewFitting extends Fitted {
  readonly kind: PartKind;
  readonly itemId: string;
}

export interface MadeEvent {
  readonly kind: EventKind;
  readonly subject: Subject;
  readonly workstationId: string;
  readonly roomId: string | null;
}

/** Everything that has to be written, and nothing that is there already. */
export interface DepartmentPlan {
  readonly records: DepartmentRecords;
  /** Workstations that stand somewhere else from now on. */
  readonly placed: readonly WorkstationRecord[];
  /** Parts that come off where they are, before anything is fitted. */
  readonly takenOff: readonly string[];
  readonly fitted: readonly NewFitting[];
  readonly events: readonly MadeEvent[];
  /** The people who are new, and so need their initial password. */
  readonly newPeople: readonly PersonRecord[];
  readonly newModels: readonly ModelRecord[];
}

export interface Planned {
  readonly problems: readonly Problem[];
  readonly counts: readonly Count[];
  readonly plan: DepartmentPlan;
}

export interface Planning {
  readonly newId: () => string;
  readonly mayChangePeople: boolean;
}

/** What these files would make of the department: every problem there is, and the plan that holds only when there is none. */
export function planImport(read: DepartmentRead, there: Department, { newId, mayChangePeople }: Planning): Planned {
  const problems: Problem[] = [...read.problems];
  const tell: Tell = (problem) => problems.push(problem);
  const places = mergePlaces({ tell, read, there, newId });
  const given = { tell, read, there, places, newId };
  const parts = mergeParts(given);
  checkFittings(tell, places, parts);
  const merged = {
    ...places,
    ...parts,
    service: mergeService(given),
    people: mergePeople(given, mayChangePeople),
    list: mergeList(given),
  };
  return {
    problems: inOrder(problems, read),
    counts: read.given.map((file) => countOf(file, read, merged[file])),
    plan: {
      records: recordsOf(merged),
      ...movesOf(places, parts),
      newPeople: added(merged.people),
      newModels: added(merged.models),
    },
  };
}

type AllMerged = { readonly [File in DepartmentFile]: Merged<DepartmentRecords[File][number]> };

function recordsOf(merged: AllMerged): DepartmentRecords {
  return {
    suites: written(merged.suites),
    zones: written(merged.zones),
    stores: written(merged.stores),
    rooms: written(merged.rooms),
    models: written(merged.models),
    workstations: written(merged.workstations),
    cylinders: written(merged.cylinders),
    vaporizers: written(merged.vaporizers),
    absorbent: written(merged.absorbent),
    sensors: written(merged.sensors),
    service: written(merged.service),
    people: written(merged.people),
    list: written(merged.list),
  };
}

function countOf(file: DepartmentFile, read: DepartmentRead, { entries }: Merged<unknown>): Count {
  const changes = entries.map(changeOf);
  const count = (change: string) => changes.filter((one) => one === change).length;
  return { file, rows: read.rowCounts[file], added: count("added"), changed: count("changed"), same: count("same") };
}

/** File by file and line by line, as somebody mends them. */
function inOrder(problems: readonly Problem[], { given }: DepartmentRead): readonly Problem[] {
  return [...problems].sort(
    (left, right) => given.indexOf(left.file) - given.indexOf(right.file) || left.line - right.line,
  );
}

type AnyPart = Entry<CylinderRecord | VaporizerRecord | AbsorbentRecord | SensorRecord>;

/** What moves. A workstation in another room is an event of its own; for parts, the record of what is fitted since when says it. */
function movesOf(
  { workstations }: Places,
  parts: Parts,
): Pick<DepartmentPlan, "placed" | "takenOff" | "fitted" | "events"> {
  const byKind: readonly (readonly [PartKind, readonly AnyPart[]])[] = [
    ["cylinder", parts.cylinders.entries],
    ["vaporizer", parts.vaporizers.entries],
    ["absorbent", parts.absorbent.entries],
    ["oxygen-sensor", parts.sensors.entries],
  ];
  const moved = byKind.flatMap(([kind, entries]) =>
    entries
      .filter(({ record, was }) => !equal(record.fitted, was?.fitted ?? null))
      .map((entry) => ({ kind, ...entry })),
  );
  return {
    placed: workstations.entries.filter((entry) => entry.was === null || isMove(entry)).map(({ record }) => record),
    takenOff: moved.flatMap(({ was }) => (was?.fitted ? [was.id] : [])),
    fitted: moved.flatMap(({ kind, record }) => (record.fitted ? [{ ...record.fitted, kind, itemId: record.id }] : [])),
    events: workstations.entries
      .filter((entry) => isMove(entry) && entry.record.roomId !== null)
      .map(({ record }) => movedIn(record)),
  };
}

const movedIn = ({ id, roomId }: WorkstationRecord): MadeEvent => ({
  kind: "moved-in",
  subject: { kind: "workstation", id },
  workstationId: id,
  roomId,
});
