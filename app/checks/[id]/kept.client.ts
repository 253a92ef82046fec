"use client";

import { isUntouched, type Typed, typedFrom } from "@/app/_parts/answer/typed";
import type { CheckView } from "@/lib/schemas/check";
import type { Batch, Kept } from "./check-state";

/** Raised when the shape below changes; what an older page kept is then left alone and not misread. */
const SHAPE = 1;

/** An entry belongs to one person: on a shared phone, somebody else's unsent answers stay with their owner. */
const nameOf = (checkId: string, personId: string): string => `yokeboard.check.${checkId}.${personId}`;

/** What this device still holds of a check: unsent answers with their keys, and half-typed fields. */
export function readKept(view: CheckView, personId: string): Kept | null {
  try {
    const text = window.localStorage.getItem(nameOf(view.id, personId));
    const kept: unknown = text === null ? null : JSON.parse(text);
    if (!isRecord(kept) || kept.shape !== SHAPE) return null;
    return { typed: typedIn(view, kept.typed), queue: Array.isArray(kept.queue) ? kept.queue.filter(isBatch) : [] };
  } catch {
    return null;
  }
}

/** False when the browser keeps nothing (private window, storage full): the screen then says so. */
export function writeKept(checkId: string, personId: string, { typed, queue }: Kept): boolean {
  try {
    const name = nameOf(checkId, personId);
    if (queue.length === 0 && Object.keys(typed).length === 0) window.localStorage.removeItem(name);
    else window.localStorage.setItem(name, JSON.stringify({ shape: SHAPE, typed, queue }));
    return true;
  } catch {
    return false;
  }
}

function typedIn(view: CheckView, kept: unknown): Record<string, Typed> {
  const drafts = isRecord(kept) ? kept : {};
  const typed: Record<string, Typed> = {};
  for (const { key, form } of view.items) {
    const draft = typedFrom(drafts[key], form);
    if (!isUntouched(draft)) typed[key] = draft;
  }
  return typed;
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;

/** Only the outline: what an answer may hold is the server's to say, and it says so by field. */
const isBatch = (value: unknown): value is Batch =>
  isRecord(value) &&
  typeof value.id === "string" &&
  Array.isArray(value.answers) &&
  value.answers.length > 0 &&
  value.answers.every((one) => isRecord(one) && typeof one.key === "string" && isRecord(one.answer));
