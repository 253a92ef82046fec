import { absorbentLife, NOT_LIMITED } from "@/lib/calculations/absorbent-life";
import { carbonDioxideFromWeight } from "@/lib/calculations/carbon-dioxide";
import { vaporizerMinutesLeft } from "@/lib/calculations/vaporizer-refill";
import { vaporizerUse } from "@/lib/calculations/vaporizer-use";
import * as schemas from "@/lib/schemas/calculator/agent";
import {
  gram,
  kilogram,
  litre,
  litrePer100Gram,
  litrePerMinute,
  millilitre,
  millilitrePerMinute,
  percent,
} from "@/lib/units/measure";
import { tell } from "./answer";
import { calculation } from "./calculation";

export const vaporizerUseAnswer = calculation({
  name: "vaporizer-use",
  title: "Liquid that a vaporizer uses",
  group: "vaporizer",
  about: "Millilitres of liquid an hour. Not for dosing, and not for what a patient takes up.",
  schema: schemas.vaporizerUse,
  example: { agent: "sevoflurane", concentrationPct: 2, freshGasLPerMin: 2, method: "total-flow" },
  run: ({ agent, concentrationPct, freshGasLPerMin, method }) =>
    tell(
      vaporizerUse({
        agent,
        concentration: percent(concentrationPct),
        freshGas: litrePerMinute(freshGasLPerMin),
        method,
      }),
      "mL/h",
    ),
});

export const vaporizerRefillAnswer = calculation({
  name: "vaporizer-refill",
  title: "Minutes until a vaporizer is at its refill mark",
  group: "vaporizer",
  about: "Time until the liquid reaches the mark at a steady dial and flow. The sight glass decides.",
  schema: schemas.vaporizerRefill,
  example: {
    agent: "sevoflurane",
    concentrationPct: 2,
    freshGasLPerMin: 2,
    method: "total-flow",
    liquidML: 120,
    markML: 40,
  },
  run: ({ agent, concentrationPct, freshGasLPerMin, method, liquidML, markML }) => {
    const use = vaporizerUse({
      agent,
      concentration: percent(concentrationPct),
      freshGas: litrePerMinute(freshGasLPerMin),
      method,
    });
    if (!use.ok) return tell(use, null);
    const left = vaporizerMinutesLeft({
      liquid: millilitre(liquidML),
      mark: millilitre(markML),
      use: use.value,
      useRange: use.uncertainty,
    });
    return tell(left, "min", { more: { useMLPerHour: use.value } });
  },
});

export const absorbentLifeAnswer = calculation({
  name: "absorbent-life",
  title: "Life of a charge of absorbent",
  group: "absorbent",
  about: "Hours of a charge. Not for deciding that it is good: colour and inspired carbon dioxide decide.",
  schema: schemas.absorbentLife,
  example: {
    massG: 1000,
    capacityLPer100g: 12,
    co2MLPerMin: 200,
    freshGasLPerMin: 1,
    minuteVentilationLPerMin: 6,
  },
  run: (request) => {
    const life = absorbentLife({
      mass: gram(request.massG),
      capacity: litrePer100Gram(request.capacityLPer100g),
      co2: millilitrePerMinute(request.co2MLPerMin),
      freshGas: litrePerMinute(request.freshGasLPerMin),
      minuteVentilation: litrePerMinute(request.minuteVentilationLPerMin),
      absorbed: litre(request.absorbedL),
    });
    if (!life.ok) return tell(life, null);
    const more = { loadMLPerMin: life.load, remark: life.remark };
    return tell(life, life.value === NOT_LIMITED ? null : "h", { more });
  },
});

export const co2ProductionAnswer = calculation({
  name: "co2-production",
  title: "Carbon dioxide of an adult at rest",
  group: "absorbent",
  about: "A first figure for the absorbent's life where none was measured.",
  schema: schemas.co2Production,
  example: { weightKg: 80 },
  run: ({ weightKg }) => tell(carbonDioxideFromWeight(kilogram(weightKg)), "mL/min"),
});
