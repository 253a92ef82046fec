import { conditionsFromWords } from "@/lib/calculations/electrical-conditions";
import { electricalSafety } from "@/lib/calculations/electrical-safety";
import {
  availability,
  completion,
  expectedFailures,
  meanTimeBetweenFailures,
  noFailureChance,
} from "@/lib/calculations/reliability";
import { riskScore } from "@/lib/calculations/risk-score";
import * as schemas from "@/lib/schemas/calculator/safety";
import { day, hour } from "@/lib/units/measure";
import { notTold, tell } from "./answer";
import { calculation } from "./calculation";

export const riskScoreAnswer = calculation({
  name: "risk-score",
  title: "Inclusion score of a device",
  group: "safety",
  about: "Function + risk + maintenance. A score for choosing what to plan, not a measure of risk.",
  schema: schemas.riskScore,
  example: { function: "life-support", risk: "patient-death", maintenance: "extensive" },
  run: ({ includeFrom, ...components }) => tell(riskScore(components, includeFrom), "points"),
});

export const electricalSafetyAnswer = calculation({
  name: "electrical-safety",
  title: "Electrical safety reading",
  group: "safety",
  about: "One reading against the limit of its standard and edition. The authority says which edition applies.",
  schema: schemas.electricalSafety,
  example: {
    standard: "nfpa-99-2012",
    test: "touch-current",
    value: 100,
    unit: "uA",
    conditions: { ground: "intact" },
  },
  run: ({ conditions: given, ...reading }) => {
    const conditions = conditionsOf(given);
    if ("refusal" in conditions) return notTold(conditions.refusal, conditions.message);
    const verdict = electricalSafety({ ...reading, conditions });
    if (!verdict.ok) return tell(verdict, null);
    const { measured, unit, limit, because, warnings } = verdict;
    return tell(verdict, null, { more: { measured, limit, limitUnit: unit, because, warnings } });
  },
});

function conditionsOf(given: (typeof schemas.electricalSafety)["_zod"]["output"]["conditions"]) {
  const words = typeof given === "string" ? given.split(/[,;]/).filter((word) => word.trim() !== "") : given;
  return Array.isArray(words) ? conditionsFromWords(words) : words;
}

export const mtbfAnswer = calculation({
  name: "mtbf",
  title: "Mean time between failures",
  group: "safety",
  about: "Operating time over failures, with its limits at 95 %. Few failures make them wide.",
  schema: schemas.meanTimeBetweenFailures,
  example: { operatingDays: 109_410, failures: 81 },
  run: ({ operatingDays, failures }) => tell(meanTimeBetweenFailures(day(operatingDays), failures), "days"),
});

export const expectedFailuresAnswer = calculation({
  name: "expected-failures",
  title: "Failures to be expected",
  group: "safety",
  about: "Failures in an operating time, for a constant rate.",
  schema: schemas.expectedFailures,
  example: { operatingDays: 109_410, mtbfDays: 1351 },
  run: ({ operatingDays, mtbfDays }) => tell(expectedFailures(day(operatingDays), day(mtbfDays)), "failures"),
});

export const noFailureAnswer = calculation({
  name: "no-failure",
  title: "Chance of no failure in a period",
  group: "safety",
  about: "For a constant rate: neither the first weeks nor the worn-out years of a device.",
  schema: schemas.noFailureChance,
  example: { periodDays: 30, mtbfDays: 1351 },
  run: ({ periodDays, mtbfDays }) => tell(noFailureChance(day(periodDays), day(mtbfDays)), "%"),
});

export const availabilityAnswer = calculation({
  name: "availability",
  title: "Availability",
  group: "safety",
  about: "Share of the time in which a device can be used; planned maintenance is not counted.",
  schema: schemas.availability,
  example: { mtbfDays: 1351, repairHours: 48 },
  run: ({ mtbfDays, repairHours }) => tell(availability(day(mtbfDays), hour(repairHours)), "%"),
});

export const completionAnswer = calculation({
  name: "completion",
  title: "Completion of what was due",
  group: "safety",
  about: "Done in time over due. 0 of 0 is n/a, neither 0 nor 100 %.",
  schema: schemas.completion,
  example: { done: 47, due: 50 },
  run: ({ done, due }) => tell(completion(done, due), "%"),
});
