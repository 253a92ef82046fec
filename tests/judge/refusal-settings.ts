/** Put this there, and be told of that place what would be right. */
export type Refusal = readonly [
  name: string,
  path: readonly (string | number)[],
  value: unknown,
  at: string,
  message: string,
];

const setting = (values: object) => ({ on: true, values, version: 1, citation: "site policy" });

/** Limits that somebody would believe in and that would not hold. */
export const SETTING_REFUSALS: readonly Refusal[] = [
  [
    "a rule that is none",
    ["settings"],
    { "reserve-oxygen": setting({}) },
    "settings.reserve-oxygen",
    "unknown rule; known: no-workstation",
  ],
  [
    "a setting that is none",
    ["settings"],
    { "reserve-oxygen-low": setting({ atLest: { value: 900, unit: "psi" } }) },
    "settings.reserve-oxygen-low.values.atLest",
    "unknown setting; known here: atLeast",
  ],
  [
    "a setting in a unit that is none",
    ["settings"],
    { "reserve-oxygen-low": setting({ atLeast: { value: 900, unit: "psig" } }) },
    "settings.reserve-oxygen-low.values.atLeast.unit",
    "“psig” is not a unit here",
  ],
  [
    "a setting in a unit of something else",
    ["settings"],
    { "reserve-oxygen-low": setting({ atLeast: { value: 900, unit: "L/min" } }) },
    "settings.reserve-oxygen-low.values.atLeast.unit",
    "“L/min” is not a unit here; known: psi, kPa, bar, mmHg, cmH2O, inHg, %",
  ],
  [
    "a share where no share is meant",
    ["settings"],
    { "empty-cylinder": setting({ atMost: { value: 5, unit: "%" } }) },
    "settings.empty-cylinder.values.atMost.unit",
    "“%” is not a unit here",
  ],
  [
    "a bare number for a pressure",
    ["settings"],
    { "reserve-oxygen-low": setting({ atLeast: 900 }) },
    "settings.reserve-oxygen-low.values.atLeast",
    "must be a quantity with value and unit",
  ],
  [
    "a setting below nothing",
    ["settings"],
    { suction: setting({ atLeast: { value: -300, unit: "mmHg" } }) },
    "settings.suction.values.atLeast.value",
    "must be from 0 to",
  ],
  [
    "a word that is none of a setting's",
    ["settings"],
    { "reserve-oxygen-low": setting({ judgeBy: "liters" }) },
    "settings.reserve-oxygen-low.values.judgeBy",
    "must be pressure, litres, minutes",
  ],
  [
    "a time of day that is none",
    ["settings"],
    { "check-validity": setting({ turnsAt: "3 am" }) },
    "settings.check-validity.values.turnsAt",
    "must be a time of day such as 03:00",
  ],
  [
    "a model's setting of no rule",
    ["workstation", "model", "settings"],
    { nothing: setting({}) },
    "workstation.model.settings.nothing",
    "unknown rule",
  ],
  [
    "a procedure's setting of no rule",
    ["procedure", "settings"],
    { nothing: setting({}) },
    "procedure.settings.nothing",
    "unknown rule",
  ],
  [
    "an allowance for no rule",
    ["workstation", "allowed"],
    [{ rule: "nothing", by: [], measures: "", until: "2026-03-03T12:10:00.000Z" }],
    "workstation.allowed[0].rule",
    "unknown rule",
  ],
  [
    "a limit that nothing can reach",
    ["settings"],
    { "trend-crossing": setting({ within: { value: 1e15, unit: "d" } }) },
    "settings.trend-crossing.values.within.value",
    "must be from 0 to 3650 d",
  ],
];
