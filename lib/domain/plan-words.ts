import type { PlanTask } from "@/lib/domain/plan/model";

export interface PlanWords {
  readonly why: string;
  readonly ifItWaits: string;
}

interface Standing {
  readonly late: number;
  readonly canWait: number | null;
  readonly walk: number;
}

const minutes = (count: number): string => `${count} min`;

/** Why a task stands where it does, and what happens if it waits: for the person who reads the list, in a sentence each. */
export function planWords(task: PlanTask, { late, canWait, walk }: Standing): PlanWords {
  return { why: whyHere(task, late, walk), ifItWaits: ifItWaits(task, late, canWait) };
}

function whyHere(
  { begun, roomName, lacksParts, readyBy, setUpMinutes, severity }: PlanTask,
  late: number,
  walk: number,
): string {
  if (begun) return "Begun; it is not moved.";
  if (lacksParts) return "Last, because what it needs is not in stock.";
  if (readyBy === null || severity === "due" || severity === "note") return "No first case waits for it.";
  const room = roomName ?? "the room";
  if (late > 0) return `${room} starts ${minutes(late)} late with this plan.`;
  if (setUpMinutes >= 20) return `${room} has a set-up of ${minutes(setUpMinutes)}.`;
  return walk <= 1 ? `Next on the walk; ${room} is in time.` : `${room} is in time with it here.`;
}

function ifItWaits({ roomName }: PlanTask, late: number, canWait: number | null): string {
  if (canWait === null) return "It may wait; no first case is late by it.";
  if (late > 0 || canWait === 0)
    return `Every minute more makes a first case later${roomName ? ` (${roomName} or a later one)` : ""}.`;
  return `It may wait ${minutes(canWait)}; after that a first case is late.`;
}
