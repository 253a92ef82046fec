"use client";

import type { CheckView } from "@/lib/schemas/check";
import type { KeptOnDevice } from "@/lib/schemas/offline";
import { deviceStore, drop, type KeptCheck, keep } from "./device-store.client";

/** Older ones are of a morning long past, and leave the device. */
const LONGEST_MS = 36 * 3_600_000;

/** Keeps a check as it is seen, to go on with it while nothing is reached. A browser that keeps nothing does without. */
export async function keepCheck(
  view: CheckView,
  owner: { readonly personId: string; readonly facilityId: string },
  began: KeptOnDevice["began"],
): Promise<void> {
  if (owner.personId === "") return;
  const signed = view.signatures.some(({ meaning }) => meaning === "performed");
  await (signed
    ? drop("checks", view.id)
    : keep("checks", { id: view.id, view, ...owner, began, keptAt: new Date().toISOString() })
  ).catch(() => undefined);
}

/** The open checks that this device can go on with, of one person, newest first. */
export async function keptChecks(personId: string): Promise<readonly KeptCheck[]> {
  const all = await (await deviceStore()).getAll("checks");
  for (const { id, keptAt } of all)
    if (Date.now() - Date.parse(keptAt) > LONGEST_MS) await drop("checks", id).catch(() => undefined);
  return all
    .filter((check) => check.personId === personId)
    .sort((left, right) => right.keptAt.localeCompare(left.keptAt));
}

export async function keptCheck(id: string, personId: string): Promise<KeptCheck | null> {
  const found = await (await deviceStore()).get("checks", id).catch(() => undefined);
  return found && found.personId === personId ? found : null;
}

export async function keptStarts(facilityId: string): Promise<readonly CheckView[]> {
  const all = await (await deviceStore()).getAll("starts");
  return all.filter((start) => start.facilityId === facilityId).map(({ view }) => view);
}
