import type { Evidence, Trend } from "@/lib/domain/evidence";
import { type ItemId, itemOf } from "@/lib/domain/items";
import type { Rule } from "@/lib/domain/rule";
import { startOf } from "@/lib/domain/rules/dates";
import { lowerFirst, saidDate, subjectName } from "@/lib/domain/wording";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { addDays, dateIn, instantOf } from "@/lib/units/time";

const citation = "common practice, no source";
const settings = {
  within: { default: quantity(14, "d") as Quantity, citation },
};

const MOVES: Partial<Record<ItemId, string>> = {
  "breathing-leak": "rising",
  "low-pressure-leak": "rising",
  "cylinder-gauge": "falling",
  suction: "falling",
  "pipeline-pressure": "drifting",
  "oxygen-in-air": "drifting",
  "oxygen-as-found": "drifting",
};

/**
 * What moves towards its limit is dealt with before it stops a room. A trend without a crossing date had too little data for a
 * forecast, and says nothing.
 */
export const trendCrossing: Rule<typeof settings> = {
  id: "trend-crossing",
  inBrief: "limit drawing near",
  what: "A reading that will reach its limit soon is looked into: leak rising, reserve falling, sensor drifting",
  severity: "due",
  citation,
  items: [],
  settings,
  allowedBy: [],
  judge: (context, { within }) => {
    const { trends, facility, workstation } = context.evidence;
    return trends.flatMap(({ item, subject, slope, crossing, between }) => {
      if (crossing === null) return [];
      const from = startOf(facility.timeZone, addDays(crossing, -Math.ceil(within.value)));
      context.changesAt(from);
      if (context.now < from) return [];
      const name = subjectName(subject, workstation);
      const text = `${itemOf(item).name}${name ? ` (${lowerFirst(name)})` : ""} ${MOVES[item] ?? "moving"}: reaches its limit about ${saidDate(crossing)}${saidBetween(between)}`;
      return [{ subject, text, measured: slope, limit: `within ${within.value} days`, items: [item] }];
    });
  },
  examples: [
    { name: "leak rising, at its limit in 14 days", given: (ready) => leakCrosses(ready, 14), expect: "due" },
    { name: "leak rising, at its limit in 15 days", given: (ready) => leakCrosses(ready, 15), expect: "holds" },
    { name: "too little data for a forecast", given: (ready) => leakCrosses(ready, null), expect: "holds" },
  ],
};

/** A forecast is a range; its far end may be never. */
function saidBetween(between: Trend["between"]): string {
  if (!between) return "";
  return between.to === null
    ? ` (${saidDate(between.from)} at the earliest)`
    : ` (between ${saidDate(between.from)} and ${saidDate(between.to)})`;
}

function leakCrosses(ready: Evidence, days: number | null): Evidence {
  const today = dateIn(ready.facility.timeZone, instantOf(ready.now));
  const trend: Trend = {
    item: "breathing-leak",
    subject: { kind: "workstation", id: ready.workstation?.id ?? "" },
    slope: quantity(4, "mL/min"),
    crossing: days === null ? null : addDays(today, days),
  };
  return { ...ready, trends: [trend] };
}
