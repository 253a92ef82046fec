import { CYLINDER_CONTENTS } from "@/lib/domain/department/model";
import { AGENTS, DRIVES, GASES, LEAK_TESTS, NEEDS, ROLES, SCHEMES, WASTE_GAS } from "@/lib/domain/vocabulary";
import * as cells from "@/lib/schemas/import-cells";
import { PRESSURE_UNITS } from "@/lib/units/pressure";

/** One column of a file. `empty` is what an empty cell means; without it the cell must hold something. */
export interface Column<Value = unknown> {
  readonly header: string;
  readonly cell: cells.Cell<Value>;
  readonly empty?: { readonly means: unknown };
  /** Accepts "today", "today+30" and "today-2" for a date counted from the day of the import. */
  readonly dated?: boolean;
  /** Never shown again, not even in a refusal. */
  readonly secret?: boolean;
}

export type Columns = Readonly<Record<string, Column>>;

const needed = <Value>(header: string, cell: cells.Cell<Value>) => ({ header, cell }) satisfies Column<Value>;
const orEmpty = <Value, Empty>(header: string, cell: cells.Cell<Value>, means: Empty) => ({
  header,
  cell: cell as cells.Cell<Value | Empty>,
  empty: { means },
});
const dated = (header: string) => ({ ...needed(header, cells.date), dated: true });
const datedOrEmpty = (header: string) => ({ ...orEmpty(header, cells.date, null), dated: true });

const name = needed("name", cells.text(80));
const tag = needed("tag", cells.text(60));
const walkingOrder = needed("walking order", cells.wholeNumber(0, 9_999));
const store = orEmpty("store", cells.text(80), null);
const onWorkstation = orEmpty("workstation", cells.text(60), null);

/** Every file's columns in the order of its template. The names on the left are the row's fields. */
export const IMPORT_COLUMNS = {
  suites: { name, walkingOrder },
  zones: { name },
  stores: {
    name,
    suite: orEmpty("suite", cells.text(80), null),
    walkingOrder: orEmpty("walking order", cells.wholeNumber(0, 9_999), null),
  },
  rooms: {
    name,
    suite: needed("suite", cells.text(80)),
    zone: orEmpty("zone", cells.text(80), null),
    piped: orEmpty("piped gases", cells.manyOf(GASES), []),
    vacuum: needed("vacuum", cells.yesNo),
    wasteGas: needed("waste gas", cells.oneOf(WASTE_GAS)),
    walkingOrder,
  },
  models: {
    name,
    maker: needed("maker", cells.text(80)),
    drive: needed("drive", cells.oneOf(DRIVES)),
    driveGas: needed("drive gas", cells.oneOf([...GASES, "none"])),
    leakTest: needed("leak test", cells.oneOf(LEAK_TESTS)),
    oxygenSensor: needed("oxygen sensor", cells.oneOf(["galvanic", "paramagnetic"])),
    mounts: needed("mounts", cells.mounts),
    yokes: orEmpty("yokes", cells.yokes, []),
    selfTestCovers: orEmpty("self-test covers", cells.itemIds, []),
    outletSelector: needed("outlet selector", cells.yesNo),
    vaporFreeMinutes: orEmpty("vapor-free minutes", cells.wholeNumber(1, 600), null),
  },
  workstations: {
    tag,
    serial: needed("serial", cells.text(60)),
    model: needed("model", cells.text(80)),
    room: orEmpty("room", cells.text(80), null),
    store,
  },
  cylinders: {
    serial: needed("serial", cells.text(60)),
    gas: needed("gas", cells.oneOf(GASES)),
    scheme: needed("scheme", cells.oneOf(SCHEMES)),
    size: needed("size", cells.text(10)),
    waterCapacityL: needed("water capacity L", cells.number(0.1, 200)),
    ratedContentsL: needed("rated contents L", cells.number(1, 50_000)),
    ratedPressure: needed("rated pressure", cells.number(0.1, 1_000_000)),
    ratedPressureUnit: needed("rated pressure unit", cells.oneOf(PRESSURE_UNITS)),
    expiry: datedOrEmpty("expiry"),
    retestDue: datedOrEmpty("retest due"),
    workstation: onWorkstation,
    yoke: orEmpty("yoke", cells.text(20), null),
    store,
    contents: needed("contents", cells.oneOf(CYLINDER_CONTENTS)),
  },
  vaporizers: {
    tag,
    agent: needed("agent", cells.oneOf(AGENTS)),
    filler: needed("filler", cells.text(40)),
    workstation: onWorkstation,
    mount: orEmpty("mount", cells.text(20), null),
    store,
    calibrationDue: datedOrEmpty("calibration due"),
    windowTo: datedOrEmpty("window to"),
  },
  absorbent: {
    tag,
    product: needed("product", cells.text(80)),
    indicator: needed("indicator", cells.yesNo),
    reverts: needed("reverts", cells.yesNo),
    strongBase: needed("strong base", cells.yesNo),
    litresPer100g: needed("litres per 100 g", cells.number(1, 40)),
    massG: needed("mass g", cells.number(50, 5_000)),
    workstation: onWorkstation,
    canister: orEmpty("canister", cells.text(20), null),
    store,
  },
  sensors: { tag, kind: needed("kind", cells.oneOf(["galvanic", "paramagnetic"])), workstation: onWorkstation, store },
  service: {
    workstation: needed("workstation", cells.text(60)),
    plan: needed("plan", cells.text(80)),
    due: dated("due"),
    windowFrom: dated("window from"),
    windowTo: dated("window to"),
  },
  people: {
    userId: needed("user id", cells.accountName),
    name,
    roles: needed("roles", cells.manyOf(ROLES)),
    initialPassword: { ...orEmpty("initial password", cells.firstPassword, null), secret: true },
  },
  list: {
    date: dated("date"),
    room: needed("room", cells.text(80)),
    firstCase: orEmpty("first case", cells.time, null),
    ends: orEmpty("ends", cells.time, null),
    needs: orEmpty("needs", cells.manyOf(NEEDS), []),
    setUpMinutes: orEmpty("set-up minutes", cells.wholeNumber(0, 240), 0),
  },
} as const;

export const headersOf = (file: keyof typeof IMPORT_COLUMNS): readonly string[] =>
  Object.values<Column>(IMPORT_COLUMNS[file]).map(({ header }) => header);
