import type { Evidence } from "@/lib/domain/evidence";
import type { RuleContext } from "@/lib/domain/rule";
import { instantOf } from "@/lib/units/time";

/** Has today's first case begun here? By the room being in use, or by the list's own time. */
export function caseHasBegun(context: RuleContext): boolean {
  const { room } = context.evidence;
  if (room === null || room.occupancy.state === "closed") return false;
  const firstCase = room.list?.firstCase ?? null;
  if (room.occupancy.state === "in-use") return true;
  if (firstCase === null) return false;
  const at = instantOf(firstCase);
  context.changesAt(at);
  return context.now >= at;
}

/** The ready room with the technician's signature alone. */
export const withoutConfirmation = (ready: Evidence): Evidence => ({
  ...ready,
  checks: ready.checks.map((check) => ({
    ...check,
    signed: check.signed.filter(({ meaning }) => meaning !== "confirmed"),
  })),
});
