import { rebuildEventTasks } from "@/lib/commands/event-rooms";
import type { Clock } from "@/lib/commands/execute";
import { judgeAndStore } from "@/lib/commands/judging";
import { renewAllTrends } from "@/lib/commands/trends";
import type { Database, Scope } from "@/lib/storage/client";
import { beginCommand } from "@/lib/storage/command-frame";
import { rebuildLatest } from "@/lib/storage/latest-observations";
import { dueHolders, notifyClockChange } from "@/lib/storage/places";
import { instant } from "@/lib/units/time";

/** Nobody's id: the clock acts, and the clock has no roles. */
const NOBODY = "00000000-0000-0000-0000-000000000000";

/**
 * Judges again what the clock alone has changed: rows past their good-until. Clock-made changes are derived, so there is no history entry.
 * Every reader treats such a row as unjudged anyway; this only makes the stored answer catch up. Returns how many were due.
 */
export async function rejudgeDue(database: Database, clock: Clock, scope: Scope): Promise<number> {
  const now = instant(clock.now());
  return database.inScope(scope, async (tx) => {
    const due = await dueHolders(tx, scope.facilityId, now);
    if (due.rooms.length + due.workstations.length === 0) return 0;
    const begun = await beginCommand(tx, scope, NOBODY, due, null);
    const touched = await judgeAndStore(tx, begun, now, "clock", false);
    await notifyClockChange(tx, scope.facilityId, touched);
    return touched.length;
  });
}

/** Rebuilds every judgement and task of a facility from its facts. */
export async function rejudgeAll(database: Database, clock: Clock, scope: Scope): Promise<number> {
  const now = instant(clock.now());
  return database.inScope(scope, async (tx) => {
    const begun = await beginCommand(tx, scope, NOBODY, { everything: true }, null);
    await rebuildLatest(tx, scope.facilityId);
    await renewAllTrends(tx, begun, now);
    const touched = await judgeAndStore(tx, begun, now, "rejudge", true);
    await rebuildEventTasks(tx, begun, now);
    await notifyClockChange(tx, scope.facilityId, touched);
    return touched.length;
  });
}
