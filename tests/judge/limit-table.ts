import type { Evidence, SettingValue } from "@/lib/domain/evidence";
import type { ItemId } from "@/lib/domain/items";
import {
  about,
  answered,
  cylinderOf as cylinderNamed,
  gauge,
  minutesLater,
  reading,
  timed,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import type { Gas } from "@/lib/domain/vocabulary";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { cylinderOf } from "@/tests/support/ready-room";

/**
 * What each limit of each rule means, in one word, and how a room gets a value beside it. The numbers are the rules' own: only the
 * side on which the limit itself lies is said here, from the wording of the source.
 *
 * from      the limit holds, less does not
 * to        the limit holds, more does not
 * under     less holds, the limit itself does not
 * over      more holds, the limit itself does not
 */
export type Side = "from" | "to" | "under" | "over";

export interface LimitRow {
  readonly rule: string;
  readonly setting: string;
  readonly side: Side;
  /** The ready room with this value found in it. */
  readonly found: (ready: Evidence, value: Quantity) => Evidence;
  /** The limit as a value to be found, where the setting is a share of something, or a distance. */
  readonly limit?: (ready: Evidence, limit: SettingValue) => Quantity;
  /** What has to be so that this limit matters at all. */
  readonly given?: (ready: Evidence) => Evidence;
}

const measured =
  (item: ItemId) =>
  (ready: Evidence, { value, unit }: Quantity): Evidence =>
    answered(ready, item, reading(value, unit));

const held =
  (item: ItemId) =>
  (ready: Evidence, { value }: Quantity): Evidence =>
    answered(ready, item, timed(value));

const gauged =
  (gas: Gas) =>
  (ready: Evidence, { value, unit }: Quantity): Evidence =>
    answered(ready, "cylinder-gauge", gauge(value, unit), cylinderNamed(ready, gas));

/** A pressure as it is, or the share of what the cylinder is filled to. */
function shareOfRated(ready: Evidence, limit: SettingValue): Quantity {
  if (typeof limit !== "object") throw new Error("a cylinder's limit is a quantity");
  if (limit.unit !== "%") return limit;
  const { ratedPressure } = cylinderOf(ready, "oxygen");
  return quantity((ratedPressure.value * limit.value) / 100, ratedPressure.unit);
}

const BAND_SIDES = { stopBelow: "from", noticeBelow: "from", noticeAbove: "to", stopAbove: "to" } as const;
const bands = (rule: string, gas: Gas): LimitRow[] =>
  Object.entries(BAND_SIDES).map(([setting, side]) => ({
    rule,
    setting,
    side,
    found: (ready, { value, unit }) => answered(ready, "pipeline-pressure", reading(value, unit), about(gas)),
  }));

const row = (
  rule: string,
  setting: string,
  side: Side,
  found: LimitRow["found"],
  more: Partial<LimitRow> = {},
): LimitRow => ({
  rule,
  setting,
  side,
  found,
  ...more,
});

const strongBase = (ready: Evidence): Evidence =>
  withWorkstation(ready, ({ fitted }) => ({
    fitted: {
      ...fitted,
      absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, strongBase: true } })),
    },
  }));

const daysAgo = (ready: Evidence, days: number): string => minutesLater(ready, -days * 1_440);

function unusedFor(ready: Evidence, { value }: Quantity): Evidence {
  return withWorkstation(ready, () => ({ lastUsedAt: daysAgo(ready, value) }));
}

/** Two lately, and one so long ago. */
function thirdFailureAgo(ready: Evidence, { value }: Quantity): Evidence {
  return withWorkstation(ready, ({ id }) => ({
    recentFailures: [1, 2, value].map((days) => ({
      item: "ventilator",
      subject: { kind: "workstation", id },
      at: daysAgo(ready, days),
    })),
  }));
}

/** So far over what is expected. */
const over21 = (_ready: Evidence, limit: SettingValue): Quantity =>
  quantity(21 + (typeof limit === "object" ? limit.value : Number.NaN), "%");

export const LIMIT_ROWS: readonly LimitRow[] = [
  ...bands("oxygen-pipeline", "oxygen"),
  ...bands("nitrous-oxide-pipeline", "nitrous-oxide"),
  ...bands("air-pipeline", "air"),
  row("reserve-oxygen-low", "atLeast", "from", gauged("oxygen"), { limit: shareOfRated }),
  row("reserve-oxygen-second", "swapMark", "from", gauged("oxygen"), { limit: shareOfRated }),
  row("empty-cylinder", "atMost", "over", gauged("nitrous-oxide")),
  row("nitrous-oxide-gas-phase", "under", "from", gauged("nitrous-oxide")),
  row("suction", "atLeast", "from", measured("suction")),
  row("scavenging-relief", "atMost", "to", measured("scavenging-relief")),
  row("hypoxic-guard", "atLeast", "from", measured("hypoxic-guard")),
  row("oxygen-after-flush", "over", "over", measured("oxygen-after-flush")),
  row("oxygen-in-air", "within", "to", measured("oxygen-in-air"), { limit: over21 }),
  row("oxygen-drift", "within", "to", measured("oxygen-as-found"), { limit: over21 }),
  row("breathing-leak", "atMost", "to", measured("breathing-leak")),
  row("breathing-leak", "holdsFor", "from", held("breathing-leak")),
  row("low-pressure-leak", "bulbHolds", "from", held("low-pressure-leak")),
  row("low-pressure-leak", "atMost", "to", measured("low-pressure-leak")),
  row("absorbent-co2", "under", "under", measured("absorbent-co2")),
  row("absorbent-dry", "flowLeftOn", "to", measured("absorbent-dry"), { given: strongBase }),
  row("absorbent-dry", "idleFor", "to", unusedFor, { given: strongBase }),
  row("repeated-failures", "within", "from", thirdFailureAgo),
];

/** Settings that are no limit of a number that somebody reads, and where they are tried instead. */
export const TRIED_ELSEWHERE: Readonly<Record<string, string>> = {
  "hypoxic-guard.mayIsolate": "switches-and-days.test.ts",
  "reserve-oxygen-low.judgeBy": "switches-and-days.test.ts",
  "reserve-oxygen-low.atLeastLitres": "switches-and-days.test.ts",
  "reserve-oxygen-low.atLeastMinutes": "switches-and-days.test.ts",
  "fault-reported.lookWithin": "switches-and-days.test.ts",
  "service-late.stopsAfter": "switches-and-days.test.ts",
  "trend-crossing.within": "switches-and-days.test.ts",
  "repeated-failures.failures": "switches-and-days.test.ts",
  "breathing-leak.noLowFlowUpTo": "settings.test.ts: off as shipped",
  "oxygen-in-air.expected": "the middle of oxygen-in-air.within",
  "oxygen-drift.expected": "the middle of oxygen-drift.within",
  "absorbent-colour.changeFrom": "limits.test.ts: the words of a colour",
  "absorbent-colour.dueFrom": "limits.test.ts: the words of a colour",
  "vaporizer-fill.dueUnder": "limits.test.ts: the words of a level",
};
