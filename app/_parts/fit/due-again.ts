import { type ItemId, itemOf } from "@/lib/domain/items";
import { recheckOf } from "@/lib/domain/recheck";
import type { EventKind } from "@/lib/domain/vocabulary";
import type { PartWork } from "./part-work";

const EVENTS: Record<PartWork["kind"], EventKind> = {
  cylinder: "cylinder-swapped",
  vaporizer: "vaporizer-fitted",
  absorbent: "absorbent-changed",
  "oxygen-sensor": "sensor-replaced",
  remove: "vaporizer-removed",
};

/** Asked of the part that goes on, whatever was asked of this workstation before. */
const OF_THE_PART: readonly ItemId[] = [
  "vaporizer-seated",
  "filler-closed",
  "vaporizer-fill",
  "cylinder-gauge",
  "yoke-leak",
  "oxygen-in-air",
  "oxygen-after-flush",
  "low-oxygen-alarm",
];

/** A vaporizer that leaks does so on or off; one of the two would not find it. */
const SAID: Partial<Record<ItemId, string>> = {
  "low-pressure-leak": "Low-pressure leak test, with the vaporizer on and off",
};

/** What this work makes due again here, in words: the table of rechecks, as far as this workstation is asked for it. */
export function dueAgain(kind: PartWork["kind"], asked: readonly string[]): string[] {
  const items = recheckOf(EVENTS[kind]);
  if (items === "everything") return ["The whole check"];
  return items
    .filter((item) => asked.includes(item) || OF_THE_PART.includes(item))
    .map((item) => SAID[item] ?? itemOf(item).name);
}
