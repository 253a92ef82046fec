import type { Answer } from "@/lib/domain/answer";
import type {
  FaultEvidence,
  HoldEvidence,
  OwedByProcedure,
  OwnQuestion,
  PastFailure,
  Quarantine,
  RecallEvidence,
  ServiceDue,
  SupplyEvidence,
} from "@/lib/domain/evidence-records";
import type { ItemId, Subject } from "@/lib/domain/items";
import type {
  Agent,
  CheckKind,
  Drive,
  EventKind,
  Gas,
  LeakTest,
  Meaning,
  Need,
  PortableMonitor,
  Role,
  Scheme,
  WasteGas,
} from "@/lib/domain/vocabulary";
import type { PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";
import type { LocalDate, Timestamp } from "@/lib/units/time";

/** The version of this document's shape; a change of shape is a new number and a decision record. */
export const EVIDENCE_SCHEMA = "yokeboard-evidence/1";

/**
 * Everything the judge may look at for one room (or one spare workstation, whose room is null), at one moment.
 * It is the type of the pure core, the format of fixtures, and what the API returns as evidence.
 */
export interface Evidence {
  readonly schema: typeof EVIDENCE_SCHEMA;
  readonly now: Timestamp;
  readonly facility: FacilityEvidence;
  /** Site overrides only, by rule id; a rule without an entry runs on its shipped defaults. */
  readonly settings: Readonly<Record<string, RuleSetting>>;
  readonly settingsVersion: number;
  readonly room: RoomEvidence | null;
  readonly workstation: WorkstationEvidence | null;
  /** The procedure a daily check follows here today, by its stable item ids, or null when the site has none in force. */
  readonly procedure: ProcedureEvidence | null;
  readonly observations: readonly Observation[];
  readonly checks: readonly Check[];
  readonly events: readonly EvidenceEvent[];
  readonly trends: readonly Trend[];
}

export interface FacilityEvidence {
  readonly id: string;
  readonly timeZone: string;
  readonly scheme: Scheme;
  readonly pressureUnit: PressureUnit;
}

export type SettingValue = Quantity | number | boolean | string;

export interface RuleSetting {
  readonly on: boolean;
  readonly values: Readonly<Record<string, SettingValue>>;
  readonly version: number;
  readonly citation: string;
}

/**
 * The same, given with a model or with a procedure. Of several the nearest to the machine stands: model over procedure over site.
 * `on` null, or absent, leaves that to the next one.
 */
export interface SettingOverride extends Omit<RuleSetting, "on"> {
  readonly on?: boolean | null;
}
export type SettingOverrides = Readonly<Record<string, SettingOverride>>;

export type Occupancy =
  | { readonly state: "idle" }
  | { readonly state: "in-use"; readonly since: Timestamp; readonly confirmed: boolean }
  | { readonly state: "closed"; readonly since: Timestamp };

export interface DayList {
  /** Null when the list names needs but no time. */
  readonly firstCase: Timestamp | null;
  readonly end: Timestamp | null;
  readonly needs: readonly Need[];
  readonly setUpMinutes: number;
}

export interface RoomEvidence {
  readonly id: string;
  readonly name: string;
  readonly suite: string;
  readonly zone: string | null;
  readonly piped: readonly Gas[];
  readonly vacuum: boolean;
  readonly wasteGas: WasteGas;
  readonly occupancy: Occupancy;
  readonly list: DayList | null;
  /** Monitors in the room that work without the workstation's own. */
  readonly portable?: readonly PortableMonitor[];
  /** What is kept in the room and counted against a par level. */
  readonly supplies?: readonly SupplyEvidence[];
}

export interface Yoke {
  readonly position: string;
  readonly gas: Gas;
}

export interface ModelEvidence {
  readonly name: string;
  readonly drive: Drive;
  readonly driveGas: Gas | "none";
  readonly leakTest: LeakTest;
  readonly oxygenSensor: "galvanic" | "paramagnetic";
  readonly mounts: readonly string[];
  readonly yokes: readonly Yoke[];
  readonly selfTestCovers: readonly ItemId[];
  readonly outletSelector: boolean;
  /** How long the model is flushed for a vapor-free preparation; null when its maker gives no time. */
  readonly vaporFreeMinutes: number | null;
  /** The same with vapor filters in the circuit; absent or null when none fit. */
  readonly vaporFreeFilterMinutes?: number | null;
  /** What this model asks of rules otherwise than the site. */
  readonly settings?: SettingOverrides;
}

export interface FittedCylinder {
  readonly id: string;
  readonly serial: string;
  readonly position: string;
  readonly gas: Gas;
  readonly scheme: Scheme;
  readonly size: string;
  readonly waterCapacityL: number;
  /** Contents and gauge pressure when full, as the handbook proportion needs them. */
  readonly ratedContentsL: number;
  readonly ratedPressure: Quantity<PressureUnit>;
  readonly from: Timestamp;
  readonly expiry: LocalDate | null;
  readonly retestDue: LocalDate | null;
}

export interface FittedVaporizer {
  readonly id: string;
  readonly tag: string;
  readonly mount: string;
  readonly agent: Agent;
  readonly filler: string;
  readonly from: Timestamp;
  readonly calibration: { readonly due: LocalDate; readonly windowTo: LocalDate } | null;
}

export interface FittedAbsorbent {
  readonly id: string;
  readonly tag: string;
  readonly position: string;
  readonly product: {
    readonly name: string;
    readonly indicator: boolean;
    readonly reverts: boolean;
    readonly strongBase: boolean;
    readonly litresPer100g: number;
  };
  readonly massG: number;
  readonly from: Timestamp;
  /** False when nobody knows when this charge was put in and `from` is only when it was recorded. */
  readonly dateKnown?: boolean;
}

export interface FittedSensor {
  readonly id: string;
  readonly tag: string;
  readonly kind: "galvanic" | "paramagnetic";
  readonly from: Timestamp;
}

/** A limit that somebody with the right to do so allowed, and until when. */
export interface Allowance {
  readonly rule: string;
  readonly by: readonly { readonly person: string; readonly role: Role }[];
  readonly measures: string;
  readonly until: Timestamp;
  /** What alone it was allowed for; absent or null: whatever that rule finds. */
  readonly subject?: Subject | null;
}

export interface WorkstationEvidence {
  readonly id: string;
  readonly tag: string;
  readonly model: ModelEvidence;
  readonly fitted: {
    readonly cylinders: readonly FittedCylinder[];
    readonly vaporizers: readonly FittedVaporizer[];
    readonly absorbent: readonly FittedAbsorbent[];
    readonly oxygenSensor: FittedSensor | null;
  };
  readonly holds: readonly HoldEvidence[];
  readonly quarantine: readonly Quarantine[];
  readonly sequestered: boolean;
  readonly faults: readonly FaultEvidence[];
  readonly serviceDue: readonly ServiceDue[];
  readonly serviceOpen: boolean;
  readonly firstUserCheckOwedSince: Timestamp | null;
  readonly recalls: readonly RecallEvidence[];
  readonly allowed: readonly Allowance[];
  /** When gas last flowed in it for a case or a check before today; null or absent when that is not known. */
  readonly lastUsedAt?: Timestamp | null;
  /** Failed answers of the last days that the observations no longer hold. */
  readonly recentFailures?: readonly PastFailure[];
}

export interface ProcedureEvidence {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  /** The items a daily check owes for this room and workstation, already matched to what is fitted and piped. */
  readonly owes: readonly OwedByProcedure[];
  /** The site's own questions of every kind of check in force; absent where nobody knows. */
  readonly own?: readonly OwnQuestion[];
  /** What this procedure asks of rules otherwise than the site. */
  readonly settings?: SettingOverrides;
}

/** How the moment of an observation is known. */
export type Known =
  | { readonly source: "server" }
  | {
      readonly source: "device";
      readonly offsetSeconds: number;
      /** Given where the device's clock cannot be trusted: the observation was made somewhere in between. */
      readonly earliest?: Timestamp;
      readonly latest?: Timestamp;
    }
  | { readonly source: "paper"; readonly earliest: Timestamp; readonly latest: Timestamp };

export type Verdict = "pass" | "fail" | "noted";

export interface Observation {
  readonly id: string;
  readonly item: ItemId;
  readonly subject: Subject;
  readonly answer: Answer;
  /** The verdict the answer got when it was given; readiness judges by today's rule, and both are shown. */
  readonly verdict: Verdict;
  readonly makersVerdict: Verdict | null;
  readonly observedAt: Timestamp;
  readonly known: Known;
  readonly by: string;
  readonly role: Role;
  readonly check: string | null;
  readonly recordedAt: Timestamp;
  readonly supersedes: string | null;
}

export interface CheckSignature {
  readonly by: string;
  readonly role: Role;
  readonly meaning: Meaning;
  readonly at: Timestamp;
}

export interface Check {
  readonly id: string;
  readonly procedure: string | null;
  /** The workstation it was done on; absent or null: the one that stands here. */
  readonly workstation?: string | null;
  readonly kind: CheckKind;
  readonly startedAt: Timestamp;
  readonly startedBy: string;
  readonly signed: readonly CheckSignature[];
}

export interface EvidenceEvent {
  readonly id: string;
  readonly kind: EventKind;
  readonly subject: Subject;
  readonly at: Timestamp;
  readonly zone: string | null;
}

export interface Trend {
  readonly item: ItemId;
  readonly subject: Subject;
  /** Per day, in the unit of the readings. */
  readonly slope: Quantity | null;
  readonly crossing: LocalDate | null;
  /** The 95 % interval of the crossing; `to` is null where it may never come. */
  readonly between?: { readonly from: LocalDate; readonly to: LocalDate | null };
}
