import type { DayList } from "@/lib/domain/evidence";
import { type Limit, type Need, UNKNOWN_NEEDS } from "@/lib/domain/vocabulary";

/** What each limit makes impossible of the things a list may need. */
const CLASHES: Readonly<Record<Limit, readonly Need[]>> = {
  "no-nitrous-oxide": ["nitrous-oxide"],
  "no-air": [],
  "no-volatile": ["volatile"],
  "no-low-flow": ["low-flow"],
  "no-sedation": ["sedation"],
  "no-mechanical-ventilation": ["mechanical-ventilation"],
  "intravenous-only": ["volatile"],
  "not-vapor-free": ["vapor-free"],
  "stay-on-mains": [],
  "service-late": [],
  // A list names the need for a volatile agent, and not which one: the provider chooses among those that are left.
  "no-sevoflurane": [],
  "no-desflurane": [],
  "no-isoflurane": [],
  "no-halothane": [],
  "no-enflurane": [],
};

/** A list that names no needs is taken to need what nearly every list needs. */
export function needsOf(list: Pick<DayList, "needs"> | null): readonly Need[] {
  return list === null || list.needs.length === 0 ? UNKNOWN_NEEDS : list.needs;
}

/** What of the list's needs these limits take away. */
export function missingFor(limits: readonly Limit[], list: Pick<DayList, "needs"> | null): readonly Need[] {
  if (limits.length === 0) return [];
  const needs = needsOf(list);
  return needs.filter((need) => limits.some((limit) => CLASHES[limit].includes(need)));
}

export const fitsList = (limits: readonly Limit[], list: Pick<DayList, "needs"> | null): boolean =>
  missingFor(limits, list).length === 0;
