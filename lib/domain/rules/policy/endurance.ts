import type { Policy } from "@/lib/domain/rule";
import { type Quantity, quantity } from "@/lib/units/quantity";

export const endurance = {
  id: "endurance",
  what: "How long reserve oxygen is said to last by hand: at which flow, and down to which pressure",
  settings: {
    byHandFlow: { default: quantity(8, "L/min") as Quantity, citation: "common practice, no source" },
    residual: {
      default: quantity(200, "psi") as Quantity,
      citation: "EMS oxygen guidance sheet 2010: safe residual of 200 psi",
      iso: {
        default: quantity(14, "bar") as Quantity,
        citation: "200 psi in round bar; EMS oxygen guidance sheet 2010",
      },
    },
  },
} as const satisfies Policy;
