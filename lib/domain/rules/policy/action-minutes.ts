import type { Policy } from "@/lib/domain/rule";
import { type Quantity, quantity } from "@/lib/units/quantity";

const citation = "common practice, no source";
const minutes = (value: number) => ({ default: quantity(value, "min") as Quantity, citation });

export const actionMinutes = {
  id: "action-minutes",
  what: "How long each thing takes that puts a room right, for what clears a reason and for the shortest way to ready",
  settings: {
    putRight: minutes(10),
    fitPart: minutes(15),
    bringPortable: minutes(5),
    isolate: minutes(5),
    vaporFree: minutes(60),
    allow: minutes(1),
    liftHold: minutes(5),
    lookAtFault: minutes(10),
    restock: minutes(10),
    assessRecall: minutes(60),
    service: minutes(150),
    release: minutes(240),
    procedure: minutes(30),
  },
} as const satisfies Policy;
