import type { Role } from "@/lib/domain/vocabulary";
import type { Instant, LocalTime } from "@/lib/units/time";

/** A stretch of duty as a roster writes it; an end at or before its beginning is on the next day. */
export interface RosterSpan {
  readonly role: Role;
  readonly from: LocalTime;
  readonly to: LocalTime;
}

/** The same in time: [from, to). */
export interface DutySpan {
  readonly role: Role;
  readonly from: Instant;
  readonly to: Instant;
}

/** Somebody who is on duty now, in these roles, until the last of them ends. */
export interface OnDuty {
  readonly personId: string;
  readonly name: string;
  readonly roles: readonly Role[];
  readonly until: Instant;
}

/** Who is on duty now. Where nobody entered a roster, that is not known, which is not the same as nobody being there. */
export interface DutyNow {
  readonly onRoster: boolean;
  readonly people: readonly OnDuty[];
}
