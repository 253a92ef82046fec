import { actorOfSession, forgetSession } from "@/lib/auth/session";
import { databaseSource } from "@/lib/live/database-source";
import { Hub, type HubOptions } from "@/lib/live/hub";
import type { BoardSource } from "@/lib/live/source";
import { type Instant, instant } from "@/lib/units/time";
import type { SmallDepartment } from "@/tests/support/small-department";

/** Real time put back or forward to the department's morning, so that timers and the clock on the board agree. */
export class RunningClock {
  #offset: number;
  constructor(at: number) {
    this.#offset = at - Date.now();
  }
  now = (): Instant => instant(Date.now() + this.#offset);
  set(at: number): void {
    this.#offset = at - Date.now();
  }
}

export interface Instance {
  readonly hub: Hub;
  readonly clock: RunningClock;
  readonly problems: unknown[];
  /** How often each read went to the database. */
  readonly reads: { board: number; rows: number; rejudged: number };
}

/** One running instance of the application, as far as the live board is concerned, on the department's database. */
export function startInstance(department: SmallDepartment, options: Partial<HubOptions> = {}): Instance {
  const clock = new RunningClock(department.clock.now());
  const problems: unknown[] = [];
  const reads = { board: 0, rows: 0, rejudged: 0 };
  const hub = new Hub({
    connectionString: department.appUrl,
    source: counting(databaseSource(department.database, clock.now), reads),
    now: clock.now,
    facilityOfSession: async (id) => (await actorOfSession(id, department.database))?.facility.id ?? null,
    forgetSession,
    report: (problem) => problems.push(problem),
    ...options,
  });
  return { hub, clock, problems, reads };
}

function counting(source: BoardSource, reads: Instance["reads"]): BoardSource {
  return {
    readBoard: (facilityId) => {
      reads.board += 1;
      return source.readBoard(facilityId);
    },
    readRows: (facilityId, roomIds) => {
      reads.rows += 1;
      return source.readRows(facilityId, roomIds);
    },
    rejudgeDue: (facilityId) => {
      reads.rejudged += 1;
      return source.rejudgeDue(facilityId);
    },
  };
}
