import { instantOf, type Timestamp, type ZoneOffsets } from "@/lib/units/time";
import { offsetsAround } from "@/lib/units/zone-offsets";

const known = new Map<string, ZoneOffsets>();

/** The server's offsets of a facility's zone for its screens, worked out once a day. */
export function offsetsToday(zone: string, at: Timestamp): ZoneOffsets {
  const key = `${zone} ${at.slice(0, 10)}`;
  const kept = known.get(key);
  if (kept) return kept;
  const made = offsetsAround(zone, instantOf(`${at.slice(0, 10)}T00:00:00Z`));
  if (known.size > 200) known.clear();
  known.set(key, made);
  return made;
}
