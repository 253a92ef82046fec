import type { Policy } from "@/lib/domain/rule";
import { type Quantity, quantity } from "@/lib/units/quantity";

const citation = "common practice, no source";
const minutes = (value: number) => ({ default: quantity(value, "min") as Quantity, citation });

export const morning = {
  id: "morning",
  what: "How long the work of a morning takes, for decide-by times and the order of tasks",
  settings: {
    swap: minutes(25),
    fullCheck: minutes(15),
    confirm: minutes(3),
    recheckItem: minutes(2),
    cylinder: minutes(6),
    remedy: minutes(10),
  },
} as const satisfies Policy;
