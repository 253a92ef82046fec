import type { FittedAbsorbent, FittedCylinder, FittedVaporizer, Observation } from "@/lib/domain/evidence";
import type { ItemId } from "@/lib/domain/items";
import type { Holder } from "@/lib/storage/evidence";
import { type PressureUnit, pressureIn } from "@/lib/units/pressure";
import { chanceFrom } from "./random";

/** A leak that rises a little every day, so that there is one to be seen rising. */
const WEARING_THROUGH = "AW-07";
const NEW_HOSE_LEAK = 20;
/** mL/min: what the check of the invented hospital allows. */
const LEAK_LIMIT = 150;

/** How the invented department's equipment really is. Answers are read off it, and it changes as equipment does. */
export class Condition {
  /** Gauge pressure as a share of the rating, by serial number. */
  private readonly pressures = new Map<string, number>();
  private readonly colours = new Map<string, number>();
  private readonly levels = new Map<string, number>();
  /** What the breathing system of the one workstation loses whose hose is wearing through, by tag; mL/min. */
  private readonly leaks = new Map<string, number>();
  /** What is broken, by workstation and item, until somebody mends it. */
  private readonly broken = new Map<string, Set<ItemId>>();

  pressure(cylinder: FittedCylinder, seen: readonly Observation[] = []): number {
    return remembered(this.pressures, cylinder.serial, () => {
      const last = newest(seen, "cylinder-gauge", cylinder.id);
      if (last?.kind === "gauge") return last.reading.value / ratedIn(cylinder, last.reading.unit as PressureUnit);
      const chance = chanceFrom(cylinder.serial);
      return cylinder.gas === "nitrous-oxide" ? chance.between(0.97, 1.01) : chance.between(0.64, 1.02);
    });
  }

  setPressure(serial: string, share: number): void {
    this.pressures.set(serial, share);
  }

  colour({ tag }: FittedAbsorbent): number {
    return remembered(this.colours, tag, () => chanceFrom(tag).between(0, 0.26));
  }

  setColour(tag: string, share: number): void {
    this.colours.set(tag, share);
  }

  level({ tag }: FittedVaporizer): number {
    return remembered(this.levels, tag, () => chanceFrom(tag).between(0.62, 1));
  }

  setLevel(tag: string, share: number): void {
    this.levels.set(tag, share);
  }

  /** Null for a workstation whose leak is only ever by chance. */
  leak({ id, tag }: { readonly id: string; readonly tag: string }, seen: readonly Observation[] = []): number | null {
    if (tag !== WEARING_THROUGH) return null;
    return remembered(this.leaks, tag, () => {
      const last = newest(seen, "breathing-leak", id);
      return last?.kind === "number" ? last.reading.value : NEW_HOSE_LEAK;
    });
  }

  breaks(workstationId: string, item: ItemId): void {
    remembered(this.broken, workstationId, () => new Set<ItemId>()).add(item);
  }

  isBroken(workstationId: string, item: ItemId): boolean {
    return this.broken.get(workstationId)?.has(item) ?? false;
  }

  /** Mended, refilled, changed: whatever those items are about is as it should be. */
  mends({ evidence: { workstation } }: Holder, items: readonly ItemId[]): void {
    if (!workstation) return;
    for (const item of items) this.broken.get(workstation.id)?.delete(item);
    if (items.includes("absorbent-colour"))
      for (const { tag } of workstation.fitted.absorbent) this.colours.set(tag, 0.01);
    // A new charge has the leak looked at again, and leaves the hose as it is.
    if (items.includes("breathing-leak") && (this.leaks.get(workstation.tag) ?? 0) > LEAK_LIMIT)
      this.leaks.set(workstation.tag, NEW_HOSE_LEAK);
    if (items.includes("vaporizer-fill")) for (const { tag } of workstation.fitted.vaporizers) this.levels.set(tag, 1);
  }

  /** What a day of cases takes. Opening a cylinder for its check takes a little; one in thirty weeps at its valve. */
  wears({ evidence: { workstation } }: Holder, day: string): void {
    if (!workstation) return;
    const chance = chanceFrom(`${workstation.tag} ${day}`);
    for (const cylinder of workstation.fitted.cylinders) {
      if (cylinder.gas === "nitrous-oxide") continue;
      const weeps = chanceFrom(`${cylinder.serial} valve`).once(1 / 30);
      const loss = weeps ? chance.between(0.03, 0.06) : chance.between(0.003, 0.01);
      this.pressures.set(cylinder.serial, Math.max(0, this.pressure(cylinder) - loss));
    }
    const leak = this.leak(workstation);
    if (leak !== null) this.leaks.set(workstation.tag, leak + chance.whole(5, 9));
    for (const one of workstation.fitted.absorbent)
      this.colours.set(one.tag, this.colour(one) + chance.between(0.01, 0.035));
    for (const [index, one] of workstation.fitted.vaporizers.entries()) {
      const used = index === 0 ? chance.between(0.06, 0.2) : chance.between(0, 0.06);
      this.levels.set(one.tag, Math.max(0.05, this.level(one) - used));
    }
  }
}

export const ratedIn = ({ ratedPressure }: FittedCylinder, unit: PressureUnit): number =>
  pressureIn(ratedPressure.value, ratedPressure.unit, unit);

function newest(seen: readonly Observation[], item: ItemId, subjectId: string): Observation["answer"] | undefined {
  return seen.filter((one) => one.item === item && one.subject.id === subjectId).at(-1)?.answer;
}

function remembered<Key, Value>(kept: Map<Key, Value>, key: Key, make: () => Value): Value {
  const known = kept.get(key);
  if (known !== undefined) return known;
  const made = make();
  kept.set(key, made);
  return made;
}
