import type { ItemId, Subject } from "@/lib/domain/items";
import type { Severity } from "@/lib/domain/judgement";
import type { CheckKind, Role } from "@/lib/domain/vocabulary";
import type { Timestamp } from "@/lib/units/time";

export const TASK_KINDS = ["check", "recheck", "swap-cylinder", "clear", "confirm", "allow", "event"] as const;
export type TaskKind = (typeof TASK_KINDS)[number];

/** Work that clears a reason. The key stays the same while the reason does, so that a claim survives judging again. */
export interface TaskDraft {
  readonly key: string;
  readonly kind: TaskKind;
  readonly title: string;
  /** The sentence of the reason behind it. */
  readonly why: string;
  readonly severity: Severity;
  readonly minutes: number;
  readonly mayDo: readonly Role[];
  /** What finishing it must answer; without a subject about every one the item has, as after a swap. */
  readonly items: readonly { readonly item: ItemId; readonly subject: Subject | null }[];
  readonly subject: Subject | null;
  /** The rule behind it; null for a whole check, which stands for many. */
  readonly rule: string | null;
  /** For a check: which kind is owed. */
  readonly checkKind: CheckKind | null;
}

/** How far somebody is with a task that they have. */
export interface TaskWork {
  readonly state: "claimed" | "started" | "paused";
  readonly since: Timestamp;
  /** Why it is paused. */
  readonly reason: string | null;
}

/** Somebody came to do it and could not. */
export interface CouldNot {
  readonly name: string;
  readonly reason: string;
  readonly at: Timestamp;
}

/** Where a task stands in the building and in the morning. */
export interface TaskPlace {
  readonly roomName: string | null;
  readonly walkingOrder: number;
  readonly firstCase: Timestamp | null;
  readonly setUpMinutes: number;
  /** Somebody has it, or walks to it: it stays where it is. */
  readonly claimed: boolean;
}

/** A task in its place, and why it stands there. */
export interface PlacedTask<Task> {
  readonly task: Task;
  readonly placed: string;
  /** What happens if it waits; null where no plan says. */
  readonly ifItWaits: string | null;
  /** Whose work it is in the plan, and when they would begin it; null where it is in nobody's. */
  readonly plannedFor: {
    readonly personId: string;
    readonly name: string;
    readonly at: Timestamp;
    /** By how much its room's first case is late with this plan. */
    readonly lateMinutes: number;
  } | null;
}
