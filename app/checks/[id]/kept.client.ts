"use client";

import { deviceStore, drop, keep } from "@/app/_offline/device-store.client";
import { outbox } from "@/app/_offline/outbox.client";
import { isUntouched, type Typed, typedFrom } from "@/app/_parts/answer/typed";
import type { CheckView } from "@/lib/schemas/check";
import type { Kept } from "./check-state";

/** Half-typed fields belong to one person: on a shared phone, somebody else's stay with their owner. */
const nameOf = (checkId: string, personId: string): string => `${checkId}.${personId}`;

/** What this device still holds of a check: answers that wait, with their keys, and half-typed fields. */
export async function readKept(view: CheckView, personId: string): Promise<Kept> {
  await outbox().load();
  const queue = outbox()
    .entries()
    .filter(({ checkId, kept, refusal }) => checkId === view.id && kept.personId === personId && refusal === null)
    .map(({ id, answers }) => ({ id, answers: answers.map(({ key, answer }) => ({ key, answer })) }));
  const typed = await deviceStore()
    .then((store) => store.get("typed", nameOf(view.id, personId)))
    .catch(() => undefined);
  return { typed: typedIn(view, typed ?? {}), queue };
}

/** A browser that keeps nothing has been told of by the outbox. */
export async function writeTyped(
  checkId: string,
  personId: string,
  typed: Readonly<Record<string, Typed>>,
): Promise<void> {
  const name = nameOf(checkId, personId);
  await (Object.keys(typed).length === 0 ? drop("typed", name) : keep("typed", typed, name)).catch(() => undefined);
}

function typedIn(view: CheckView, drafts: Readonly<Record<string, unknown>>): Record<string, Typed> {
  const typed: Record<string, Typed> = {};
  for (const { key, form } of view.items) {
    const draft = typedFrom(drafts[key], form);
    if (!isUntouched(draft)) typed[key] = draft;
  }
  return typed;
}
