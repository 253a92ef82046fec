import type {
  AbsorbentRecord,
  AbsorbentRow,
  CylinderRecord,
  CylinderRow,
  Department,
  DepartmentFile,
  DepartmentRead,
  Fitted,
  SensorRecord,
  SensorRow,
  VaporizerRecord,
  VaporizerRow,
  Whereabouts,
} from "@/lib/domain/department/model";
import { type Merged, merge, refer, type Tell } from "@/lib/domain/department-merge";
import type { Places } from "@/lib/domain/department-places";
import { numeral } from "@/lib/domain/wording";
import { pressureIn } from "@/lib/units/pressure";

export interface Parts {
  readonly cylinders: Merged<CylinderRecord>;
  readonly vaporizers: Merged<VaporizerRecord>;
  readonly absorbent: Merged<AbsorbentRecord>;
  readonly sensors: Merged<SensorRecord>;
}

interface Given {
  readonly tell: Tell;
  readonly read: DepartmentRead;
  readonly there: Department;
  readonly places: Places;
  readonly newId: () => string;
}

/** A workstation has one oxygen sensor, so its place needs no name of its own in the file. */
export const SENSOR_POSITION = "1";

/** Cylinders, vaporizers, absorbent and oxygen sensors as they will be kept or fitted. */
export function mergeParts(given: Given): Parts {
  return {
    cylinders: mergeCylinders(given),
    vaporizers: mergeVaporizers(given),
    absorbent: mergeAbsorbent(given),
    sensors: mergeSensors(given),
  };
}

const byTag = {
  column: "tag",
  ofRow: ({ tag }: { readonly tag: string }) => [tag],
  ofRecord: ({ tag }: { readonly tag: string }) => [tag],
};

function mergeCylinders(given: Given): Merged<CylinderRecord> {
  const { tell, read, there, newId } = given;
  return merge<CylinderRow, CylinderRecord>(tell, {
    file: "cylinders",
    rows: read.rows.cylinders,
    existing: there.records.cylinders,
    column: "serial",
    ofRow: ({ serial }) => [serial],
    ofRecord: ({ serial }) => [serial],
    build: ({ line, workstation, store, yoke, ...rest }, was) => {
      const row = { line, workstation, store };
      ratedPressureProblem(tell, line, rest);
      return {
        ...rest,
        id: was?.id ?? newId(),
        ...whereabouts(given, row, { file: "cylinders", position: yoke, column: "yoke" }),
      };
    },
  });
}

/** Below any service pressure and above any filling pressure of a medical gas cylinder: common practice, no source. */
const RATED_BAR = { least: 20, most: 310 } as const;

function ratedPressureProblem(
  tell: Tell,
  line: number,
  { ratedPressure, ratedPressureUnit: unit }: Pick<CylinderRow, "ratedPressure" | "ratedPressureUnit">,
): void {
  const bar = pressureIn(ratedPressure, unit, "bar");
  if (bar >= RATED_BAR.least && bar <= RATED_BAR.most) return;
  const [least, most] = [RATED_BAR.least, RATED_BAR.most].map((limit) =>
    numeral(Math.round(pressureIn(limit, "bar", unit))),
  );
  const message = `${numeral(ratedPressure)} ${unit} is not the pressure of a full cylinder, which is between ${least} and ${most} ${unit}. Correct the number or its unit.`;
  tell({ file: "cylinders", line, column: "rated pressure", value: String(ratedPressure), message });
}

function mergeVaporizers(given: Given): Merged<VaporizerRecord> {
  const { tell, read, there, newId } = given;
  return merge<VaporizerRow, VaporizerRecord>(tell, {
    ...byTag,
    file: "vaporizers",
    rows: read.rows.vaporizers,
    existing: there.records.vaporizers,
    build: ({ line, workstation, store, mount, ...rest }, was) => {
      const { calibrationDue: due, windowTo } = rest;
      if ((due === null) !== (windowTo === null)) {
        tell({
          file: "vaporizers",
          line,
          column: "window to",
          value: windowTo,
          message: "Give both the day the calibration is due and the last day of its window, or neither.",
        });
      } else if (due !== null && windowTo !== null && windowTo < due) {
        tell({
          file: "vaporizers",
          line,
          column: "window to",
          value: windowTo,
          message: `The window cannot end before the calibration is due, on ${due}.`,
        });
      }
      return {
        ...rest,
        id: was?.id ?? newId(),
        ...whereabouts(given, { line, workstation, store }, { file: "vaporizers", position: mount, column: "mount" }),
      };
    },
  });
}

function mergeAbsorbent(given: Given): Merged<AbsorbentRecord> {
  const { tell, read, there, newId } = given;
  return merge<AbsorbentRow, AbsorbentRecord>(tell, {
    ...byTag,
    file: "absorbent",
    rows: read.rows.absorbent,
    existing: there.records.absorbent,
    build: ({ line, workstation, store, canister, ...rest }, was) => ({
      ...rest,
      id: was?.id ?? newId(),
      ...whereabouts(
        given,
        { line, workstation, store },
        { file: "absorbent", position: canister, column: "canister" },
      ),
    }),
  });
}

function mergeSensors(given: Given): Merged<SensorRecord> {
  const { tell, read, there, newId } = given;
  return merge<SensorRow, SensorRecord>(tell, {
    ...byTag,
    file: "sensors",
    rows: read.rows.sensors,
    existing: there.records.sensors,
    build: ({ line, workstation, store, tag, kind }, was) => {
      const position = workstation === null ? null : SENSOR_POSITION;
      return {
        id: was?.id ?? newId(),
        tag,
        kind,
        ...whereabouts(given, { line, workstation, store }, { file: "sensors", position, column: "workstation" }),
      };
    },
  });
}

interface Position {
  readonly file: DepartmentFile;
  readonly position: string | null;
  readonly column: string;
}

/** On a workstation with its position, or in a store: one of the two, and whole. */
function whereabouts(
  { tell, read, places }: Given,
  row: Whereabouts,
  { file, position, column }: Position,
): { storeId: string | null; fitted: Fitted | null } {
  const { line, workstation, store } = row;
  if (workstation !== null && store !== null) {
    tell({
      file,
      line,
      column: "store",
      value: store,
      message: `A part is on ${workstation} or in ${store}, not both. Keep one of them.`,
    });
  } else if (workstation === null && store === null) {
    tell({ file, line, column: "store", value: null, message: "Say where it is: on a workstation, or in a store." });
  } else if ((workstation === null) !== (position === null)) {
    const message =
      workstation === null
        ? `A ${column} needs its workstation. Name it, or leave the ${column} empty.`
        : `Say which ${column} of ${workstation} it is on.`;
    tell({ file, line, column, value: position, message });
  }
  const on =
    workstation === null
      ? null
      : refer(tell, read, places.workstations, "workstation", workstation, { file, line, column: "workstation" });
  return {
    fitted: on && position !== null ? { workstationId: on.id, position } : null,
    storeId:
      store === null
        ? null
        : (refer(tell, read, places.stores, "store", store, { file, line, column: "store" })?.id ?? null),
  };
}
