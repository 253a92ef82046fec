"use client";

import { newRequestId } from "@/app/_parts/request-id";
import type { CheckView } from "@/lib/schemas/check";
import type { SessionView } from "@/lib/schemas/set-up";
import type { KeptCheck } from "./device-store.client";
import { keepCheck } from "./kept-checks.client";

/** Begins a check on the device: under an id of its own, which the server takes over with the first answers. */
export async function beginCheck(start: CheckView, session: SessionView): Promise<KeptCheck> {
  const at = new Date().toISOString();
  const began = {
    workstationId: start.workstation.id,
    roomId: start.room?.id ?? null,
    procedureId: start.procedure?.id ?? null,
    kind: "daily" as const,
    at,
  };
  const view = { ...start, id: newRequestId(), startedAt: at, startedBy: session.person.name, at };
  const owner = { personId: session.person.id, facilityId: session.facility.id };
  await keepCheck(view, owner, began);
  return { id: view.id, view, ...owner, began, keptAt: at };
}
