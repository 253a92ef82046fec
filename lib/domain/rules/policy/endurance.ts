import type { Policy } from "@/lib/domain/rule";
import { type Quantity, quantity } from "@/lib/units/quantity";

export const endurance = {
  id: "endurance",
  what: "How long reserve oxygen is said to last by hand and on the ventilator: at which flows, and down to which pressure",
  settings: {
    byHandFlow: { default: quantity(8, "L/min") as Quantity, citation: "common practice, no source" },
    driveGasFlow: {
      default: quantity(10, "L/min") as Quantity,
      citation:
        "Klemenzson and Perouansky 2004 (abstract): 564 to 599 L/h on two of three gas-driven ventilators; up to 848 L/h with stiff lungs",
    },
    gasTemperature: {
      default: quantity(21.1, "C") as Quantity,
      citation: "70 F, at which handbook contents are stated; that cylinders stand at it is common practice, no source",
    },
    temperatureSwing: {
      default: quantity(5, "C") as Quantity,
      citation: "how much colder a room may be at night than by day: common practice, no source",
    },
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
