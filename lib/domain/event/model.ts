import type { Answer } from "@/lib/domain/answer";
import type { EvidenceEvent } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { Gas, Role } from "@/lib/domain/vocabulary";
import type { Quantity } from "@/lib/units/quantity";
import type { Instant } from "@/lib/units/time";

/** What may happen to many rooms at once. A recall is about a model of workstation, everything else about one zone. */
export const DEPARTMENT_EVENT_KINDS = [
  "pipeline-low",
  "pipeline-high",
  "pipeline-restored",
  "power",
  "recall",
] as const;
export type DepartmentEventKind = (typeof DEPARTMENT_EVENT_KINDS)[number];

/** One cause for many rooms. */
export interface DepartmentEvent {
  readonly id: string;
  readonly kind: DepartmentEventKind;
  readonly zone: { readonly id: string; readonly name: string } | null;
  readonly model: { readonly id: string; readonly name: string } | null;
  readonly gas: Gas | null;
  readonly reading: Quantity | null;
  /** Practised: it is told like a real one, is marked, and changes no readiness. */
  readonly drill: boolean;
  readonly note: string | null;
  /** The rooms it touched when it was raised. */
  readonly rooms: readonly string[];
  readonly at: Instant;
  readonly by: string;
  readonly role: Role;
  readonly endedAt: Instant | null;
}

/** What somebody says happened. */
export interface Raised {
  readonly kind: DepartmentEventKind;
  readonly zoneId?: string | undefined;
  readonly modelId?: string | undefined;
  readonly gas?: Gas | undefined;
  readonly reading?: Quantity | undefined;
  readonly drill: boolean;
}

/** The two looks that bring a room's pipeline back: one without the other proves nothing. */
export interface RoomReturned {
  readonly roomId: string;
  readonly pressure?: Quantity | undefined;
  /** The right gas, proved with an oxygen analyzer on pipeline gas, the cylinder shut. */
  readonly identity?: boolean | undefined;
  readonly mains?: boolean | undefined;
}

/** What it says about one room: the record of the event, and an answer where it says that something has failed. */
export interface RoomEffect {
  readonly event: Pick<EvidenceEvent, "kind" | "subject">;
  readonly failing: { readonly item: ItemId; readonly subject: Subject; readonly answer: Answer } | null;
}
