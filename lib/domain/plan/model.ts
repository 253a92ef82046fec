import type { Severity } from "@/lib/domain/judgement";
import type { Role } from "@/lib/domain/vocabulary";
import type { Instant } from "@/lib/units/time";

/** A task as the plan of the work sees it. */
export interface PlanTask {
  readonly key: string;
  /** What waits for it: a room's first case, or nothing. Tasks of one room wait for each other's end, not for each other. */
  readonly roomId: string | null;
  readonly roomName: string | null;
  /** Where it is along the walk. */
  readonly walkingOrder: number;
  readonly minutes: number;
  readonly severity: Severity;
  readonly mayDo: readonly Role[];
  /** When the room must be ready: its first case less its own set-up; null when no case waits for it. */
  readonly readyBy: Instant | null;
  readonly setUpMinutes: number;
  /** Who has it already; it stays with them, in front, in the order in which it was taken. */
  readonly begun: { readonly personId: string; readonly at: Instant } | null;
  /** What it needs is not in stock: it is planned last, and says so. */
  readonly lacksParts: boolean;
}

export interface PlanPerson {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly from: Instant;
  readonly until: Instant;
  /** Where they are along the walk; null when nobody knows, and then the first walk costs nothing. */
  readonly walkingOrder: number | null;
}

/** How costly each thing is, in weighted minutes. Own choice, no source; they only have to rank plans as a charge provider would. */
export interface PlanWeights {
  /** A minute by which a room's first case is late, by the worst severity of what stands in its way. */
  readonly late: Readonly<Record<Severity, number>>;
  /** So much more, as a share, for each hour of a room's set-up: there is less to catch up with. */
  readonly longSetUp: number;
  /** A minute until a task is done, whatever waits for it: the tie-break that keeps everybody moving. */
  readonly flow: number;
  /** A minute of walking. */
  readonly walk: number;
  /** Minutes from one place of the walk to the next. */
  readonly minutesAStep: number;
}

export const USUAL_WEIGHTS: PlanWeights = {
  late: { out: 4, stops: 4, owed: 3, limits: 1, due: 0, note: 0 },
  longSetUp: 1,
  flow: 0.05,
  walk: 0.1,
  minutesAStep: 0.5,
};

export interface PlannedTask {
  readonly key: string;
  readonly personId: string;
  readonly start: Instant;
  readonly end: Instant;
  readonly walkMinutes: number;
  /** Minutes by which the room's first case is late with this plan; zero when in time, or when nothing waits. */
  readonly lateMinutes: number;
  /** How long its start may wait before a first case is late: null when nothing waits for it. */
  readonly canWaitMinutes: number | null;
  readonly why: string;
  readonly ifItWaits: string;
}

export interface Plan {
  /** By start, what was begun first. */
  readonly tasks: readonly PlannedTask[];
  /** What nobody on duty may do, or has time left for. */
  readonly unplanned: readonly { readonly key: string; readonly why: string }[];
  /** In weighted minutes: for comparing plans, and for nothing else. */
  readonly cost: number;
}
