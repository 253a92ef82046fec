import type { Severity } from "@/lib/domain/judgement";
import type { Role } from "@/lib/domain/vocabulary";
import type { Instant } from "@/lib/units/time";

/** An open task as it is looked at for whether somebody must be asked to see to it. */
export interface WatchedTask {
  readonly key: string;
  readonly title: string;
  readonly place: string | null;
  readonly severity: Severity;
  readonly minutes: number;
  readonly mayDo: readonly Role[];
  readonly claimed: boolean;
  /** Somebody on duty comes to it in time by the plan. */
  readonly plannedInTime: boolean;
  /** When its room must be ready: the first case less its set-up; null where no case waits. */
  readonly readyBy: Instant | null;
  /** Who could not, last; null when nobody said so. */
  readonly couldNot: { readonly name: string; readonly reason: string; readonly at: Instant } | null;
  /** A reported fault whose time to be looked at has passed. */
  readonly faultLate: boolean;
}

export interface AskedPerson {
  readonly id: string;
  readonly taskKey: string;
  readonly personId: string;
  readonly at: Instant;
  readonly answerBy: Instant;
  readonly answered: boolean;
  /** Null while it is open. */
  readonly outcome: "passed-on" | "unanswered" | "over" | null;
}

/** Somebody who could be asked. */
export interface Reachable {
  readonly id: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly onDuty: boolean;
  /** By at least one way besides the screen. */
  readonly hasChannel: boolean;
}

export interface Limits {
  readonly beforeDecideByMinutes: number;
  readonly afterCouldNotMinutes: number;
  readonly answerWithinMinutes: number;
}

export interface Asking {
  readonly taskKey: string;
  readonly personId: string;
  readonly reason: string;
  readonly answerBy: Instant;
}

export interface Escalated {
  readonly ended: readonly { readonly id: string; readonly outcome: "unanswered" | "over" }[];
  readonly asked: readonly Asking[];
}
