import type { WorkstationEvidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { TaskDraft } from "@/lib/domain/task/model";
import { GAS_NAMES, lowerFirst } from "@/lib/domain/wording";

/** A part that a task uses up. `key` tells what stock it comes from; null for what the stores do not count. */
export interface Need {
  readonly key: string | null;
  readonly what: string;
}

export interface PickLine {
  readonly what: string;
  readonly need: number;
  readonly stores: readonly { readonly store: string; readonly count: number }[];
  readonly short: number;
}

/** Items whose failure is put right with a new charge of absorbent, or with a new sensor. */
const ABSORBENT: readonly ItemId[] = ["absorbent-colour", "absorbent-co2", "absorbent-dry"];
const SENSOR: readonly ItemId[] = ["oxygen-in-air", "oxygen-after-flush", "oxygen-as-found", "low-oxygen-alarm"];

/** What somebody takes along for a task; nothing where looking is the work. */
export function needsOfTask(
  task: Pick<TaskDraft, "kind" | "items" | "subject">,
  workstation: WorkstationEvidence | null,
): Need[] {
  if (workstation === null || task.subject === null) return [];
  if (task.kind === "swap-cylinder") return cylinderNeeds(task.subject, workstation);
  if (task.kind !== "clear") return [];
  const items = new Set(task.items.map(({ item }) => item));
  if (ABSORBENT.some((item) => items.has(item))) return absorbentNeeds(task.subject, workstation);
  if (SENSOR.some((item) => items.has(item))) return sensorNeeds(workstation);
  return items.has("vaporizer-fill") ? agentNeeds(task.subject, workstation) : [];
}

function cylinderNeeds({ id }: Subject, { fitted }: WorkstationEvidence): Need[] {
  return fitted.cylinders
    .filter((cylinder) => cylinder.id === id)
    .map(({ gas, size }) => ({ key: `cylinder:${gas}:${size}`, what: `${GAS_NAMES[gas]} cylinder, size ${size}` }));
}

function absorbentNeeds({ kind, id }: Subject, { fitted }: WorkstationEvidence): Need[] {
  return fitted.absorbent
    .filter((charge) => kind !== "absorbent" || charge.id === id)
    .map(({ product }) => ({ key: `absorbent:${product.name}`, what: `Absorbent ${product.name}` }));
}

function sensorNeeds({ model }: WorkstationEvidence): Need[] {
  return [{ key: `oxygen-sensor:${model.oxygenSensor}`, what: `Oxygen sensor, ${model.oxygenSensor}` }];
}

function agentNeeds({ id }: Subject, { fitted }: WorkstationEvidence): Need[] {
  return fitted.vaporizers
    .filter((vaporizer) => vaporizer.id === id)
    .map(({ agent, filler }) => ({ key: null, what: `${capital(agent)} to fill, ${lowerFirst(filler)} filler` }));
}

const capital = (word: string): string => `${word.charAt(0).toUpperCase()}${word.slice(1)}`;

/** One line for each thing, with where it stands in stock. What the stores do not count is never said to be short. */
export function pickLines(
  needs: readonly Need[],
  stock: readonly { readonly key: string; readonly store: string; readonly count: number }[],
): PickLine[] {
  const byThing = new Map<string, { need: Need; count: number }>();
  for (const need of needs) {
    const thing = need.key ?? need.what;
    byThing.set(thing, { need, count: (byThing.get(thing)?.count ?? 0) + 1 });
  }
  return [...byThing.values()]
    .map(({ need, count }) => {
      const stores = stock
        .filter(({ key }) => key === need.key)
        .map(({ store, count: there }) => ({ store, count: there }));
      const there = stores.reduce((sum, store) => sum + store.count, 0);
      return { what: need.what, need: count, stores, short: need.key === null ? 0 : Math.max(0, count - there) };
    })
    .sort((left, right) => (left.what < right.what ? -1 : left.what > right.what ? 1 : 0));
}
