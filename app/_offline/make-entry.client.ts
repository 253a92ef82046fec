"use client";

import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { KEPT_SHAPE, type KeptOnDevice } from "@/lib/schemas/offline";
import { deviceClock } from "./device-clock.client";
import type { Entry } from "./device-store.client";
import { outbox } from "./outbox.client";

export interface Giving {
  readonly id: string;
  readonly view: CheckView;
  readonly item: CheckItemView;
  readonly answer: Answer;
  readonly person: { readonly id: string; readonly name: string };
  readonly facilityId: string;
  readonly began: KeptOnDevice["began"];
}

let last = 0;

/** Later than every entry before it, also when the device's clock was turned back. */
function nextOrder(): number {
  const before = outbox().entries().at(-1)?.order ?? 0;
  last = Math.max(last + 1, before + 1, Date.now());
  return last;
}

/** Keeps one answer on the device before anything is sent. What the server had refused of the same question is thereby dealt with. */
export async function keepAnswer({ id, view, item, answer, person, facilityId, began }: Giving): Promise<void> {
  const givenAt = new Date().toISOString();
  await outbox().load();
  const order = nextOrder();
  const entry: Entry = {
    id,
    order,
    facilityId,
    personName: person.name,
    place: view.room?.name ?? view.workstation.tag,
    checkId: view.id,
    kept: { shape: KEPT_SHAPE, personId: person.id, clock: await deviceClock(), began },
    answers: [{ key: item.key, item: item.item, subject: item.subject, title: item.title, answer, givenAt }],
    tried: false,
    refusal: null,
  };
  for (const refused of refusedBefore(entry, item.key)) await outbox().remove(refused.id);
  await outbox().put(entry);
}

const refusedBefore = (entry: Entry, key: string): readonly Entry[] =>
  outbox()
    .entries()
    .filter(
      ({ checkId, kept, refusal, answers }) =>
        refusal !== null &&
        checkId === entry.checkId &&
        kept.personId === entry.kept.personId &&
        answers.every((answer) => answer.key === key),
    );
