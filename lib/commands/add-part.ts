import { command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import { planImport } from "@/lib/domain/department/decide";
import type { Department } from "@/lib/domain/department/model";
import { keyOf } from "@/lib/domain/department-merge";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { headersOf } from "@/lib/schemas/import-columns";
import { readDepartment } from "@/lib/schemas/import-rows";
import { addPartReply, addPartRequest, PART_FILES } from "@/lib/schemas/places";
import { loadDepartment } from "@/lib/storage/department";
import { writeDepartment } from "@/lib/storage/department-write";

type Kind = keyof typeof PART_FILES;
interface Input {
  readonly kind: Kind;
  readonly workstationId: string | null;
  readonly storeId: string | null;
  readonly position: string | null;
  readonly cells: Readonly<Record<string, string>>;
}

/** Under which column each file says where on the workstation a part sits. */
const POSITION: Readonly<Record<Kind, string | null>> = {
  cylinder: "yoke",
  vaporizer: "mount",
  absorbent: "canister",
  "oxygen-sensor": null,
};

/** One part by hand is one row of its import file: it is read, checked and written in the same way. */
export const addPart = command({
  name: "add-part",
  summary: "Add a cylinder, vaporizer, absorbent charge or oxygen sensor, on a workstation or in a store.",
  schema: addPartRequest,
  reply: addPartReply,
  locks: ({ workstationId }) => ({ workstations: workstationId === null ? [] : [workstationId] }),
  load: (tx, _input, { begun }) => loadDepartment(tx, begun.scope, { dates: [], userIds: [] }),
  decide: (there, input, { begun, now, newId }) => {
    const where = placeOf(there, input);
    if (!where.ok) return where;
    const file = PART_FILES[input.kind];
    const row = rowOf(input, where.value);
    const unknown = Object.keys(input.cells).find(
      (header) => !headersOf(file).includes(header) || header in where.value,
    );
    if (unknown !== undefined)
      return refused(
        "invalid",
        `"${unknown}" is not asked here; known: ${asked(input.kind).join(", ")}.`,
        `cells.${unknown}`,
      );
    const name = row[headersOf(file)[0] ?? ""] ?? "";
    if (there.records[file].some((record) => keyOf("serial" in record ? record.serial : record.tag) === keyOf(name)))
      return refused(
        "taken",
        `${name} is recorded already. Read it again on the label, or swap it in its room.`,
        `cells.${headersOf(file)[0]}`,
      );
    const read = readDepartment({ [file]: csvOf(headersOf(file), row) }, checkDayAt(checkClock(begun), now).date);
    const { problems, plan } = planImport(read, there, { newId, mayChangePeople: false });
    const [first] = problems;
    return first
      ? refused("invalid", first.message, first.column === null ? "cells" : fieldOf(first.column, input.kind))
      : done({ plan, name });
  },
  apply: async (tx, { plan, name }, input, { actor, begun, now, newId }) => {
    const writing = {
      scope: begun.scope,
      at: now,
      by: actor.personId,
      session: actor.sessionId,
      newId,
      hashes: new Map<string, string>(),
    };
    if (!(await writeDepartment(tx, plan, writing)))
      return refused("moved-on", `${name} was added in the meantime. Look again.`);
    return {
      reply: { name },
      note: { text: `Added ${WORDS[input.kind]} ${name}`, data: { ...input } },
    };
  },
});

const WORDS: Readonly<Record<Kind, string>> = {
  cylinder: "cylinder",
  vaporizer: "vaporizer",
  absorbent: "absorbent",
  "oxygen-sensor": "oxygen sensor",
};

/** Where it is, in the columns of the file. */
function placeOf({ records }: Department, { kind, workstationId, storeId, position }: Input) {
  const column = POSITION[kind];
  const workstation = records.workstations.find(({ id }) => id === workstationId);
  const store = records.stores.find(({ id }) => id === storeId);
  if (workstationId !== null && !workstation)
    return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
  if (storeId !== null && !store)
    return refused("not-found", "There is no store with this id in your facility. Choose one of the list.", "storeId");
  const place: Record<string, string> = { workstation: workstation?.tag ?? "", store: store?.name ?? "" };
  if (column !== null) place[column] = position ?? "";
  return done(place);
}

const rowOf = ({ cells }: Input, place: Readonly<Record<string, string>>): Readonly<Record<string, string>> => ({
  ...cells,
  ...place,
});

const asked = (kind: Kind): string[] =>
  headersOf(PART_FILES[kind]).filter((header) => !["workstation", "store", POSITION[kind]].includes(header));

function fieldOf(column: string, kind: Kind): string {
  if (column === "workstation") return "workstationId";
  if (column === "store") return "storeId";
  return column === POSITION[kind] ? "position" : `cells.${column}`;
}

/** One row as the import reads it; quotes keep whatever a cell holds. */
const csvOf = (headers: readonly string[], row: Readonly<Record<string, string>>): string =>
  [headers, headers.map((header) => row[header] ?? "")]
    .map((line) => line.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(","))
    .join("\n");
