"use client";

import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Typed } from "@/app/_parts/answer/typed";
import type { Answer } from "@/lib/domain/answer";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { CheckView } from "@/lib/schemas/check";
import type { KeptOnDevice } from "@/lib/schemas/offline";
import type { SessionView } from "@/lib/schemas/set-up";

/** One answer that waits, with all that a list needs to say about it. */
export interface WaitingAnswer {
  readonly key: string;
  readonly item: ItemId;
  readonly subject: Subject;
  readonly title: string;
  readonly answer: Answer;
  /** By the device's clock. */
  readonly givenAt: string;
}

/** One request that waits: its id is its Idempotency-Key, so however often it is sent, it counts once. */
export interface Entry {
  readonly id: string;
  /** The order in which entries were made on this device. */
  readonly order: number;
  readonly facilityId: string;
  readonly personName: string;
  readonly place: string;
  readonly checkId: string;
  readonly kept: KeptOnDevice;
  readonly answers: readonly WaitingAnswer[];
  /** Asked for once at least: its content must not change any more. */
  readonly tried: boolean;
  /** What the server said when it refused; the entry stays until a person has dealt with it. */
  readonly refusal: string | null;
}

/** A check as this device knows it, to go on with while nothing is reached. */
export interface KeptCheck {
  readonly id: string;
  readonly view: CheckView;
  readonly facilityId: string;
  readonly personId: string;
  /** Begun here, and not known to the server before its first answers arrive. */
  readonly began: KeptOnDevice["began"];
  readonly keptAt: string;
}

interface Schema extends DBSchema {
  entries: { key: string; value: Entry };
  checks: { key: string; value: KeptCheck };
  /** A check of a workstation as it would be begun: the questions, with nothing answered. */
  starts: { key: string; value: { id: string; view: CheckView; facilityId: string; keptAt: string } };
  typed: { key: string; value: Readonly<Record<string, Typed>> };
  known: { key: "session"; value: SessionView } | { key: "clock"; value: KeptOnDevice["clock"] };
}

let opened: Promise<IDBPDatabase<Schema>> | null = null;

/** The device's own store. Rejects where the browser keeps nothing, as some private windows do. */
export function deviceStore(): Promise<IDBPDatabase<Schema>> {
  opened ??= openDB<Schema>("yokeboard", 1, {
    upgrade: (database) => {
      database.createObjectStore("entries", { keyPath: "id" });
      database.createObjectStore("checks", { keyPath: "id" });
      database.createObjectStore("starts", { keyPath: "id" });
      database.createObjectStore("typed");
      database.createObjectStore("known");
    },
    // A newer page wants to change the store: this one makes way, and opens it again when it needs it.
    blocking: (_current, _next, event) => {
      (event.target as IDBDatabase).close();
      opened = null;
    },
    terminated: () => {
      opened = null;
    },
  }).catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}

type StoreName = "entries" | "checks" | "starts" | "typed" | "known";

/** Writes and waits until it is on the disk: a battery that dies the moment after loses nothing. */
export async function keep<Name extends StoreName>(
  name: Name,
  value: Schema[Name]["value"],
  key?: Schema[Name]["key"],
): Promise<void> {
  const transaction = (await deviceStore()).transaction(name, "readwrite", { durability: "strict" });
  await transaction.store.put(value, key);
  await transaction.done;
}

export async function drop<Name extends StoreName>(name: Name, key: Schema[Name]["key"]): Promise<void> {
  const transaction = (await deviceStore()).transaction(name, "readwrite", { durability: "strict" });
  await transaction.store.delete(key);
  await transaction.done;
}
