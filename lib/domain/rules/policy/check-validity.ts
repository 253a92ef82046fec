import type { CheckClock } from "@/lib/domain/check-day";
import type { Policy, SettingsPlace } from "@/lib/domain/rule";
import { isOverridden, resolved } from "@/lib/domain/rules/settings";
import type { LocalTime } from "@/lib/units/time";

const citation = "common practice, no source";

export const checkValidity = {
  id: "check-validity",
  what: "When a check day turns, and until when on the next day a check still counts",
  settings: {
    turnsAt: { default: "03:00", citation },
    goodUntil: { default: "05:00", citation },
  },
} as const satisfies Policy;

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;

/** One clock object for each zone that keeps the shipped times, so that its days are found again at a glance. */
const shipped = new Map<string, CheckClock>();

export function checkClock(place: SettingsPlace): CheckClock {
  const { timeZone } = place.facility;
  if (isOverridden(checkValidity, place)) return clockOf(place);
  const known = shipped.get(timeZone) ?? clockOf(place);
  shipped.set(timeZone, known);
  return known;
}

function clockOf(place: SettingsPlace): CheckClock {
  const values = resolved(checkValidity, place).values;
  return {
    timeZone: place.facility.timeZone,
    turnsAt: timeOr(values.turnsAt, checkValidity.settings.turnsAt.default),
    goodUntil: timeOr(values.goodUntil, checkValidity.settings.goodUntil.default),
  };
}

const timeOr = (value: unknown, otherwise: string): LocalTime =>
  (typeof value === "string" && TIME.test(value) ? value : otherwise) as LocalTime;
