import type { ModelEvidence } from "@/lib/domain/evidence";
import type { Agent, Gas, Need, Role, Scheme, WasteGas } from "@/lib/domain/vocabulary";
import type { PressureUnit } from "@/lib/units/pressure";
import type { LocalDate, LocalTime } from "@/lib/units/time";

/** The files a department is described by. */
export type DepartmentFile =
  | "suites"
  | "zones"
  | "stores"
  | "rooms"
  | "models"
  | "workstations"
  | "cylinders"
  | "vaporizers"
  | "absorbent"
  | "sensors"
  | "service"
  | "people"
  | "list";

/** One thing wrong in one place of a file, and what would be right. Line 1 is the header row. */
export interface Problem {
  readonly file: DepartmentFile;
  readonly line: number;
  readonly column: string | null;
  readonly value: string | null;
  readonly message: string;
}

interface Line {
  readonly line: number;
}

/** Rows as the files say them: everything is named, nothing has an id yet. */
export interface SuiteRow extends Line {
  readonly name: string;
  readonly walkingOrder: number;
}
export interface StoreRow extends NameRow {
  readonly suite: string | null;
  readonly walkingOrder: number | null;
}
export interface NameRow extends Line {
  readonly name: string;
}
export interface RoomRow extends Line {
  readonly name: string;
  readonly suite: string;
  readonly zone: string | null;
  readonly piped: readonly Gas[];
  readonly vacuum: boolean;
  readonly wasteGas: WasteGas;
  readonly walkingOrder: number;
}
export type ModelRow = Line & ModelEvidence & { readonly maker: string };
export interface WorkstationRow extends Line {
  readonly tag: string;
  readonly serial: string;
  readonly model: string;
  readonly room: string | null;
  readonly store: string | null;
}
/** A part is on a workstation or in a store. */
export interface Whereabouts extends Line {
  readonly workstation: string | null;
  readonly store: string | null;
}
export interface CylinderRow extends Whereabouts {
  readonly serial: string;
  readonly gas: Gas;
  readonly scheme: Scheme;
  readonly size: string;
  readonly waterCapacityL: number;
  readonly ratedContentsL: number;
  readonly ratedPressure: number;
  readonly ratedPressureUnit: PressureUnit;
  readonly expiry: LocalDate | null;
  readonly retestDue: LocalDate | null;
  readonly yoke: string | null;
  readonly contents: CylinderContents;
}
export interface VaporizerRow extends Whereabouts {
  readonly tag: string;
  readonly agent: Agent;
  readonly filler: string;
  readonly mount: string | null;
  readonly calibrationDue: LocalDate | null;
  readonly windowTo: LocalDate | null;
}
export interface AbsorbentRow extends Whereabouts {
  readonly tag: string;
  readonly product: string;
  readonly indicator: boolean;
  readonly reverts: boolean;
  readonly strongBase: boolean;
  readonly litresPer100g: number;
  readonly massG: number;
  readonly canister: string | null;
}
export interface SensorRow extends Whereabouts {
  readonly tag: string;
  readonly kind: ModelEvidence["oxygenSensor"];
}
export interface ServiceRow extends Line {
  readonly workstation: string;
  readonly plan: string;
  readonly due: LocalDate;
  readonly windowFrom: LocalDate;
  readonly windowTo: LocalDate;
}
export interface PersonRow extends Line {
  readonly userId: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly initialPassword: string | null;
}
export interface ListRow extends Line {
  readonly date: LocalDate;
  readonly room: string;
  readonly firstCase: LocalTime | null;
  readonly ends: LocalTime | null;
  readonly needs: readonly Need[];
  readonly setUpMinutes: number;
}

export interface DepartmentRows {
  readonly suites: readonly SuiteRow[];
  readonly zones: readonly NameRow[];
  readonly stores: readonly StoreRow[];
  readonly rooms: readonly RoomRow[];
  readonly models: readonly ModelRow[];
  readonly workstations: readonly WorkstationRow[];
  readonly cylinders: readonly CylinderRow[];
  readonly vaporizers: readonly VaporizerRow[];
  readonly absorbent: readonly AbsorbentRow[];
  readonly sensors: readonly SensorRow[];
  readonly service: readonly ServiceRow[];
  readonly people: readonly PersonRow[];
  readonly list: readonly ListRow[];
}

/** Files as they were read: the good rows, what was wrong with the others, and which names the others hold. */
export interface DepartmentRead {
  readonly given: readonly DepartmentFile[];
  readonly rows: DepartmentRows;
  readonly problems: readonly Problem[];
  /** Names in rows that have a problem of their own: a reference to one is not a second problem. */
  readonly broken: Readonly<Record<DepartmentFile, readonly string[]>>;
  /** Files of which no row could be read at all. */
  readonly unreadable: readonly DepartmentFile[];
  readonly rowCounts: Readonly<Record<DepartmentFile, number>>;
}

export const CYLINDER_CONTENTS = ["full", "in-use", "empty"] as const;
export type CylinderContents = (typeof CYLINDER_CONTENTS)[number];

/** Records as the database keeps them: everything has an id. */
export interface NameRecord {
  readonly id: string;
  readonly name: string;
}
/** Where a store lies on the walk is known only where somebody said so. */
export interface StoreRecord extends NameRecord {
  readonly suiteId: string | null;
  readonly walkingOrder: number | null;
}
export interface SuiteRecord extends NameRecord {
  readonly walkingOrder: number;
}
export interface RoomRecord extends NameRecord {
  readonly suiteId: string;
  readonly zoneId: string | null;
  readonly piped: readonly Gas[];
  readonly vacuum: boolean;
  readonly wasteGas: WasteGas;
  readonly walkingOrder: number;
}
export interface ModelRecord extends NameRecord {
  readonly maker: string;
  readonly document: ModelEvidence;
}
export interface WorkstationRecord {
  readonly id: string;
  readonly tag: string;
  readonly serial: string;
  readonly modelId: string;
  /** Where it stands; both are null only for a workstation that was never placed. */
  readonly roomId: string | null;
  readonly storeId: string | null;
}
export interface Fitted {
  readonly workstationId: string;
  readonly position: string;
}
interface PartRecord {
  readonly id: string;
  readonly storeId: string | null;
  readonly fitted: Fitted | null;
}
export type CylinderRecord = PartRecord & Omit<CylinderRow, "line" | "workstation" | "store" | "yoke">;
export type VaporizerRecord = PartRecord & Omit<VaporizerRow, "line" | "workstation" | "store" | "mount">;
export type AbsorbentRecord = PartRecord & Omit<AbsorbentRow, "line" | "workstation" | "store" | "canister">;
export type SensorRecord = PartRecord & Omit<SensorRow, "line" | "workstation" | "store">;
export interface ServiceRecord extends Omit<ServiceRow, "line" | "workstation"> {
  readonly workstationId: string;
}
export interface PersonRecord extends Omit<PersonRow, "line" | "initialPassword"> {
  readonly id: string;
}
export interface ListRecord extends Omit<ListRow, "line" | "room"> {
  readonly roomId: string;
}

export interface DepartmentRecords {
  readonly suites: readonly SuiteRecord[];
  readonly zones: readonly NameRecord[];
  readonly stores: readonly StoreRecord[];
  readonly rooms: readonly RoomRecord[];
  readonly models: readonly ModelRecord[];
  readonly workstations: readonly WorkstationRecord[];
  readonly cylinders: readonly CylinderRecord[];
  readonly vaporizers: readonly VaporizerRecord[];
  readonly absorbent: readonly AbsorbentRecord[];
  readonly sensors: readonly SensorRecord[];
  readonly service: readonly ServiceRecord[];
  readonly people: readonly PersonRecord[];
  readonly list: readonly ListRecord[];
}

/** What is there before the import. */
export interface Department {
  readonly records: DepartmentRecords;
  /** Rooms with a case in them. */
  readonly roomsInUse: readonly string[];
  /** User ids of the files that belong to somebody outside this organisation. */
  readonly userIdsTaken: readonly string[];
}
