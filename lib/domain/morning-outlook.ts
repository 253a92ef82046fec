import type { MorningRoom } from "@/lib/domain/morning";
import { type Instant, instantOf, MINUTE } from "@/lib/units/time";

/** How the rooms that run today stand. They add up: running = ready + in time + to check + late + decision + out of service. */
export interface MorningCounts {
  readonly running: number;
  readonly ready: number;
  /** Of the ready ones. */
  readonly owingProvider: number;
  readonly inTime: number;
  readonly toCheck: number;
  readonly late: number;
  readonly decision: number;
  readonly outOfService: number;
  readonly closed: number;
}

/** What can be said of one room's start, now. */
export interface RoomOutlook {
  readonly name: string;
  readonly kind: "closed" | "ready" | "act-now" | "in-time" | "to-check" | "late" | "decision" | "out-of-service";
  readonly owesProvider: boolean;
  readonly lateMinutes: number;
  readonly decideBy: Instant | null;
}

export function outlookOf(room: MorningRoom, now: Instant): RoomOutlook {
  const { name, occupancy, state } = room;
  const decideBy = room.decideBy ?? room.firstCase;
  const outlook = (kind: RoomOutlook["kind"], lateMinutes = 0): RoomOutlook => ({
    name,
    kind,
    owesProvider: room.marks.provider === null && occupancy.state !== "in-use",
    lateMinutes,
    decideBy: decideBy === null ? null : instantOf(decideBy),
  });
  if (occupancy.state === "closed") return outlook("closed");
  if (occupancy.state === "in-use") return outlook(room.whenInUse === "act-now" ? "act-now" : "ready");
  if (state === "out-of-service") return outlook("out-of-service");
  if (state === "ready") return outlook("ready");
  if (state === "ready-limited") return outlook(room.limitsAllowed && room.readyForList ? "ready" : "decision");
  return workOutlook(room, now, outlook);
}

/** A room with somebody on it is in time or late by that work; a stop that nobody has taken needs a decision. */
function workOutlook(
  room: MorningRoom,
  now: Instant,
  outlook: (kind: RoomOutlook["kind"], late?: number) => RoomOutlook,
): RoomOutlook {
  const claimed = room.work.filter(({ person }) => person !== null);
  const firstCase = room.firstCase === null ? null : instantOf(room.firstCase);
  const needs = claimed.length > 0 ? minutesLeft(claimed, now) : shortest(room);
  const late = firstCase === null ? 0 : Math.ceil((now + needs * MINUTE - firstCase) / MINUTE);
  if (late > 0) return outlook("late", late);
  if (claimed.length > 0) return outlook("in-time");
  return outlook(room.state === "do-not-use" ? "decision" : "to-check");
}

/** What is left of the claimed work, done one after the other; work that ran over its time still takes a minute. */
function minutesLeft(work: MorningRoom["work"], now: Instant): number {
  const total = work.reduce((sum, { minutes }) => sum + minutes, 0);
  const begun = work.flatMap(({ claimedAt }) => (claimedAt === null ? [] : [instantOf(claimedAt)]));
  const elapsed = begun.length === 0 ? 0 : (now - Math.min(...begun)) / MINUTE;
  return Math.max(1, total - Math.max(0, elapsed));
}

/** Even if somebody began now, this much time passes. */
const shortest = ({ work }: MorningRoom): number => Math.max(0, ...work.map(({ minutes }) => minutes));
