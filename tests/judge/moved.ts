import type { Evidence } from "@/lib/domain/evidence";
import { withWorkstation } from "@/lib/domain/rules/examples";
import { readyRoom } from "@/tests/support/ready-room";

const INSTANT = /^\d{4}-\d{2}-\d{2}T[\d:.]+Z$/;

/** The same evidence with every moment so many milliseconds later; dates stay. */
export function moved<Thing>(thing: Thing, by: number): Thing {
  if (typeof thing === "string" && INSTANT.test(thing)) {
    return new Date(Date.parse(thing) + by).toISOString() as Thing & string;
  }
  if (Array.isArray(thing)) return thing.map((one) => moved(one, by)) as Thing & unknown[];
  if (typeof thing !== "object" || thing === null) return thing;
  return Object.fromEntries(Object.entries(thing).map(([name, value]) => [name, moved(value, by)])) as Thing;
}

/** The ready room in another place, all of it looked at and signed at that moment; no date stands in it. */
export function checkedAt(timeZone: string, signed: string): Evidence {
  const { observations, ...rest } = checkedBefore(timeZone, signed);
  const at = new Date(signed).toISOString();
  return { ...rest, observations: observations.map((one) => ({ ...one, observedAt: at, recordedAt: at })) };
}

/** The same, signed then, and looked at five minutes before. */
export function checkedBefore(timeZone: string, signed: string): Evidence {
  const ready = readyRoom();
  const performed = ready.checks[0]?.signed[0]?.at ?? ready.now;
  const undated = withWorkstation(ready, ({ fitted }) => ({
    fitted: { ...fitted, vaporizers: fitted.vaporizers.map((one) => ({ ...one, calibration: null })) },
  }));
  const there = moved(undated, Date.parse(signed) - Date.parse(performed));
  return { ...there, facility: { ...there.facility, timeZone } };
}

export const seenAt = (evidence: Evidence, moment: string | number): Evidence => ({
  ...evidence,
  now: new Date(moment).toISOString(),
});
