"use client";

import { fetchView } from "@/app/_parts/api.client";
import type { BoardRow } from "@/lib/schemas/board";
import type { CheckView } from "@/lib/schemas/check";
import { deviceStore, drop, keep } from "./device-store.client";

/** A phone walks one suite in a morning; more would weigh on the server and on the device. */
const MOST = 16;

/** Keeps the questions of the workstations that are still to be checked, so that a check may begin in a dead corner. */
export async function keepStarts(facilityId: string): Promise<void> {
  const board = await fetchView<{ rooms: readonly BoardRow[] }>("/api/v1/board");
  if (!board.ok) return;
  const wanted = board.value.rooms
    .filter(({ marks }) => marks.equipment === null)
    .sort((left, right) => Number(right.state === "to-check") - Number(left.state === "to-check"))
    .flatMap(({ workstation }) => (workstation ? [workstation.id] : []))
    .slice(0, MOST);
  const store = await deviceStore().catch(() => null);
  if (!store) return;
  for (const id of await store.getAllKeys("starts")) if (!wanted.includes(id)) await drop("starts", id);
  for (const id of wanted) {
    const start = await fetchView<CheckView>(`/api/v1/workstations/${id}/check-start`);
    if (start.ok) await keep("starts", { id, view: start.value, facilityId, keptAt: start.value.at });
  }
}
