import type { DutyView } from "@/lib/schemas/duty";
import type { PeopleView } from "@/lib/schemas/set-up";

export type Person = PeopleView["people"][number];
export type Span = DutyView["people"][number]["spans"][number];

/** A stretch as it is typed; its number keeps its fields apart while others come and go. */
export interface TypedSpan extends Span {
  readonly id: number;
}
