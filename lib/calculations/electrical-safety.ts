import { type Computed, type Refused, refused } from "./calculated";
import { scaledByTen } from "./decimal-scale";
import {
  CONDITION_CHOICES,
  type ConditionName,
  type Conditions,
  ELECTRICAL_LIMITS,
  ELECTRICAL_STANDARDS,
  ELECTRICAL_TESTS,
  type ElectricalLimit,
  type ElectricalStandard,
  type ElectricalTest,
  type ElectricalUnit,
  STANDARD_NAMES,
} from "./electrical-limits";
import { outOfRange } from "./within";

export const READING_UNITS = ["uA", "mA", "A", "mohm", "ohm", "kohm", "Mohm"] as const;
export type ReadingUnit = (typeof READING_UNITS)[number];

export interface ElectricalReading {
  readonly standard: ElectricalStandard;
  readonly test: ElectricalTest;
  readonly value: number;
  readonly unit: ReadingUnit;
  readonly conditions: Conditions;
}

export type Verdict = "pass" | "conditional" | "fail";

export type ElectricalVerdict = Computed<Verdict> & {
  /** The reading in the unit of its limit. */
  readonly measured: number;
  readonly unit: ElectricalUnit;
  readonly limit: number;
  /** The limit as a sentence. */
  readonly because: string;
  /** A reading that looks like a wrong unit. It is judged as written, and said. */
  readonly warnings: readonly string[];
};

export type ElectricalRefusal =
  | "out-of-range"
  | "test-not-in-standard"
  | "condition-missing"
  | "condition-without-limit"
  | "wrong-unit";

/**
 * One electrical safety reading against the limit of its standard and edition.
 *
 *   at-most     reading <= limit          below      reading < limit          at-least   reading >= limit
 *
 * in        standard with edition, test, reading with unit, the conditions the limit depends on (ground intact or open, class,
 *           applied part, what was measured, method)
 * out       pass, conditional (allowed on conditions that the answer names) or fail; the limit itself passes or fails as its wording says
 * validity  each limit belongs to its edition; the reading is taken as shown by the meter
 * error     exact; that of the meter is not counted
 * refuses   a test that the edition does not hold, a missing condition, a unit of another kind, a reading below 0
 * not for   choosing the standard that applies: authorities adopt an edition
 * source    NFPA 99-2005 by trade press (secondary); NFPA 99-2012 from memory; IEC 62353:2014 by excerpt and from memory, see each limit
 */
export function electricalSafety(reading: ElectricalReading): ElectricalVerdict | Refused<ElectricalRefusal> {
  const limit = limitFor(reading);
  if ("refusal" in limit) return limit;
  const measured = inUnitOf(limit, reading);
  if (measured === null) return wrongUnit(reading, limit);
  const outside = outOfRange([{ name: "The reading", value: measured, unit: limit.unit, from: 0, to: 1e12 }]);
  if (outside) return outside;
  return {
    ok: true,
    value: verdictOf(measured, limit),
    method: `${limit.test}, ${STANDARD_NAMES[limit.standard]}`,
    uncertainty: null,
    source: limit.source,
    measured,
    unit: limit.unit,
    limit: limit.limit,
    because: wordsOf(limit),
    warnings: warningsOf(measured, limit),
  };
}

/** The standard that a written name means: "NFPA 99-2012", "nfpa99 2012"; null when it names none, or no edition. */
export function electricalStandard(written: string): ElectricalStandard | null {
  const bare = (text: string) => text.toLowerCase().replace(/[^a-z0-9]/g, "");
  return ELECTRICAL_STANDARDS.find((id) => bare(id) === bare(written)) ?? null;
}

/** The tests of a standard, in the order of their table. */
export function testsOf(standard: ElectricalStandard): ElectricalTest[] {
  return ELECTRICAL_TESTS.filter((test) =>
    ELECTRICAL_LIMITS.some((row) => row.standard === standard && row.test === test),
  );
}

function limitFor({ standard, test, conditions }: ElectricalReading): ElectricalLimit | Refused<ElectricalRefusal> {
  const candidates = ELECTRICAL_LIMITS.filter((row) => row.standard === standard && row.test === test);
  if (candidates.length === 0) {
    const known = testsOf(standard).join(", ");
    return refused(
      "test-not-in-standard",
      `${STANDARD_NAMES[standard]} has no limit for ${test} here. It has: ${known}.`,
    );
  }
  const fitting = candidates.filter((row) => namesOf(row).every((name) => meets(row, conditions, name)));
  const open = fitting.flatMap((row) => namesOf(row).filter((name) => conditions[name] === undefined));
  const met = fitting.find((row) => namesOf(row).every((name) => conditions[name] !== undefined));
  if (met) return met;
  const [missing] = open;
  return missing === undefined ? withoutLimit(test, candidates, conditions) : conditionMissing(test, missing, fitting);
}

const namesOf = (row: ElectricalLimit) => Object.keys(row.when) as ConditionName[];

/** Does the row hold under this condition, or could it still? */
function meets(row: ElectricalLimit, conditions: Conditions, name: ConditionName): boolean {
  return conditions[name] === undefined || conditions[name] === row.when[name];
}

function conditionMissing(test: string, name: ConditionName, fitting: readonly ElectricalLimit[]) {
  const choices = [...new Set(fitting.map((row) => row.when[name]).filter((choice) => choice !== undefined))];
  return refused(
    "condition-missing",
    `The limit for ${test} depends on ${name}. Give ${name}: ${choices.join(" or ")}.`,
  );
}

function withoutLimit(test: string, candidates: readonly ElectricalLimit[], conditions: Conditions) {
  const names = [...new Set(candidates.flatMap(namesOf))];
  const given = names.map((name) => `${name} ${conditions[name]}`).join(", ");
  const known = candidates.map((row) =>
    namesOf(row)
      .map((name) => `${name} ${row.when[name]}`)
      .join(", "),
  );
  return refused(
    "condition-without-limit",
    `There is no limit for ${test} with ${given}. There is one for: ${known.join("; ")}.`,
  );
}

const POWERS: Readonly<Record<ReadingUnit, { readonly kind: "A" | "ohm"; readonly power: number }>> = {
  uA: { kind: "A", power: -6 },
  mA: { kind: "A", power: -3 },
  A: { kind: "A", power: 0 },
  mohm: { kind: "ohm", power: -3 },
  ohm: { kind: "ohm", power: 0 },
  kohm: { kind: "ohm", power: 3 },
  Mohm: { kind: "ohm", power: 6 },
};

function inUnitOf({ unit }: ElectricalLimit, reading: ElectricalReading): number | null {
  const from = POWERS[reading.unit];
  const to = POWERS[unit];
  return from.kind === to.kind ? scaledByTen(reading.value, from.power - to.power) : null;
}

function wrongUnit({ test, unit }: ElectricalReading, limit: ElectricalLimit): Refused<"wrong-unit"> {
  const kind = POWERS[limit.unit].kind;
  const fitting = READING_UNITS.filter((name) => POWERS[name].kind === kind).join(", ");
  return refused("wrong-unit", `The test ${test} is not measured in ${unit}. Use one of: ${fitting}.`);
}

function verdictOf(measured: number, { bound, limit, conditional }: ElectricalLimit): Verdict {
  const within = { "at-most": measured <= limit, below: measured < limit, "at-least": measured >= limit }[bound];
  if (within) return "pass";
  return conditional && measured <= conditional.upTo ? "conditional" : "fail";
}

const BOUND_WORDS = { "at-most": "at most", below: "less than", "at-least": "at least" } as const;

function wordsOf({ bound, limit, unit, conditional }: ElectricalLimit): string {
  const own = `${BOUND_WORDS[bound]} ${limit} ${unit}`;
  return conditional ? `${own}; up to ${conditional.upTo} ${unit} for ${conditional.conditions}` : own;
}

/** This many times below a limit, or above it, a wrong prefix is likelier than a reading. Common practice, no source. */
const SLIP = 150;

function warningsOf(measured: number, { bound, limit, unit }: ElectricalLimit): string[] {
  if (bound === "at-least") return [];
  const [smaller, larger] = unit === "uA" ? ["mA", "nA"] : ["a larger unit", "a smaller unit"];
  if (measured > 0 && measured * SLIP <= limit) {
    return [`${measured} ${unit} is unusually low beside a limit of ${limit} ${unit}. Did the meter show ${smaller}?`];
  }
  if (measured >= limit * SLIP) {
    return [`${measured} ${unit} is unusually high beside a limit of ${limit} ${unit}. Did the meter show ${larger}?`];
  }
  return [];
}

/** Every choice of a condition, for forms and messages. */
export const choicesOf = (name: ConditionName): readonly string[] => CONDITION_CHOICES[name];
