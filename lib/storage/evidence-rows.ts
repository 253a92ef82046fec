import type { Answer } from "@/lib/domain/answer";
import type { Known, ModelEvidence, Verdict } from "@/lib/domain/evidence";
import type { ItemId, SubjectKind } from "@/lib/domain/items";
import type { OwnItem, Procedure } from "@/lib/domain/procedure/model";
import type { Agent, CheckKind, EventKind, Gas, Meaning, Need, Role, Scheme, WasteGas } from "@/lib/domain/vocabulary";
import type { PressureUnit } from "@/lib/units/pressure";
import type { Quantity } from "@/lib/units/quantity";

/** The parts of workstations as their query finds them. */
export interface FittedRows {
  cylinders: CylinderRow[];
  vaporizers: VaporizerRow[];
  absorbent: AbsorbentRow[];
  sensors: SensorRow[];
}

/** The rows of the evidence query as they come: what the tables say, before the domain's words. */
export interface EvidenceRows extends FittedRows {
  rooms: RoomRow[];
  workstations: WorkstationRow[];
  holds: { id: string; workstation_id: string; by: string; role: Role; reason: string; at: string }[];
  faults: { id: string; workstation_id: string; text: string; would_not_use: boolean; at: string }[];
  /** Failed answers from before those that are read whole. */
  failures: FailureRow[];
  allowances: AllowanceRow[];
  /** Recalls of a workstation's model that nobody has ended yet. */
  recalls: { workstation_id: string; name: string; at: string }[];
  /** Rooms that were asked for a vapor-free workstation on this check day. */
  vapor_free: { room_id: string; needed_at: string }[];
  service: { workstation_id: string; plan: string; due: string; window_from: string; window_to: string }[];
  observations: ObservationRow[];
  trends: TrendRow[];
  checks: CheckRow[];
  events: EventRow[];
  procedure: { id: string; version: number; in_force_from: string; document: Procedure } | null;
  /** The daily versions before it that a running check may have been begun with, newest first. */
  earlier_versions: { in_force_from: string; items: ItemId[] }[];
  /** The site's own questions of each kind of check in force. */
  own_questions: OwnItem[][];
}

export interface FailureRow {
  workstation_id: string;
  item: ItemId;
  subject_kind: SubjectKind;
  subject_id: string;
  observed_at: string;
}

export interface RoomRow {
  id: string;
  name: string;
  suite: string;
  zone: string | null;
  piped: Gas[];
  vacuum: boolean;
  waste_gas: WasteGas;
  walking_order: number;
  list: {
    first_case: string | null;
    ends_at: string | null;
    needs: Need[];
    set_up_minutes: number;
    date: string;
    /** Entered or imported for this day, or taken from the weekly template. */
    source: "day" | "week";
  } | null;
  /** The weekly template says that the room is closed on this weekday, and no list of the day says otherwise. */
  closed_by_template: boolean;
  occupancy: { state: "in-use" | "closed"; from: string; confirmed: boolean } | null;
}

export interface WorkstationRow {
  id: string;
  tag: string;
  model_name: string;
  model: ModelEvidence;
  room_id: string | null;
  store_id: string | null;
}

interface FittedRow {
  workstation_id: string;
  position: string;
  from: string;
  id: string;
}

export interface CylinderRow extends FittedRow {
  serial: string;
  gas: Gas;
  scheme: Scheme;
  size: string;
  water_capacity_l: number;
  rated_contents_l: number;
  rated_pressure: number;
  rated_pressure_unit: PressureUnit;
  expiry: string | null;
  retest_due: string | null;
}

export interface VaporizerRow extends FittedRow {
  tag: string;
  agent: Agent;
  filler: string;
  calibration_due: string | null;
  calibration_window_to: string | null;
}

export interface AbsorbentRow extends FittedRow {
  tag: string;
  product: string;
  indicator: boolean;
  reverts: boolean;
  strong_base: boolean;
  litres_per_100g: number;
  mass_g: number;
}

export interface SensorRow extends Omit<FittedRow, "position"> {
  tag: string;
  kind: "galvanic" | "paramagnetic";
}

export interface AllowanceRow {
  workstation_id: string;
  rule: string;
  person_id: string;
  role: Role;
  measures: string;
  until: string;
}

export interface ObservationRow {
  id: string;
  check_id: string | null;
  item: ItemId;
  subject_kind: SubjectKind;
  subject_id: string;
  workstation_id: string | null;
  room_id: string | null;
  answer: Answer;
  verdict: Verdict;
  makers_verdict: Verdict | null;
  observed_at: string;
  known: Known;
  observed_by: string;
  observed_role: Role;
  recorded_at: string;
  supersedes: string | null;
}

export interface CheckRow {
  id: string;
  procedure_id: string | null;
  kind: CheckKind;
  workstation_id: string;
  room_id: string | null;
  started_at: string;
  started_by: string;
  signed: { by: string; role: Role; meaning: Meaning; at: string }[];
}

export interface EventRow {
  id: string;
  kind: EventKind;
  subject_kind: SubjectKind;
  subject_id: string;
  workstation_id: string | null;
  room_id: string | null;
  at: string;
  zone: string | null;
}

export interface TrendRow {
  keeper_id: string;
  item: ItemId;
  subject_kind: SubjectKind;
  subject_id: string;
  slope: Quantity;
  crossing: string;
  crossing_from: string;
  crossing_to: string | null;
}
