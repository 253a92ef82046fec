import type { Policy } from "@/lib/domain/rule";
import { type Quantity, quantity } from "@/lib/units/quantity";

const citation = "common practice, no source";
const minutes = (value: number) => ({ default: quantity(value, "min") as Quantity, citation });

export const escalation = {
  id: "escalation",
  what: "When work that nobody has is put to one person, and how long an answer is waited for",
  settings: {
    /** Before the last minute at which the work can begin and the first case still be in time. */
    beforeDecideBy: minutes(15),
    /** After somebody said that they could not, and nobody took it up. */
    afterCouldNot: minutes(5),
    answerWithin: minutes(5),
  },
} as const satisfies Policy;
