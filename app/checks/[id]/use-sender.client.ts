"use client";

import { type Dispatch, useEffect, useEffectEvent } from "react";
import { type Sent, sender } from "@/app/_offline/sender.client";
import { useTrouble } from "@/app/_offline/use-outbox.client";
import type { CheckView } from "@/lib/schemas/check";
import type { Batch, CheckAction } from "./check-state";

export type Sending = "idle" | "sending" | "no-signal" | "sign-in";

const hurry = (): void => sender().hurry();

/**
 * What became of this check's answers: the device sends them by itself, from whatever page is open. What the server refuses goes back
 * into the fields with its reason; what it could not hear stays in the queue.
 */
export function useSender(view: CheckView, first: Batch | null, dispatch: Dispatch<CheckAction>, by: string) {
  const trouble = useTrouble();
  const heard = useEffectEvent((sent: Sent) => {
    if (sent.entry.checkId === view.id) dispatch(actionOf(sent, view.at, by));
  });
  useEffect(() => sender().listen(heard), []);
  const sending: Sending = first ? (trouble ?? "sending") : "idle";
  return { sending, hurry };
}

function actionOf(sent: Sent, at: string, by: string): CheckAction {
  const batchId = sent.entry.id;
  if (sent.type === "refused") return { type: "refused", batchId, message: sent.message };
  const verdicts = Object.fromEntries(sent.reply.recorded.map(({ key, verdict }) => [key, verdict]));
  return { type: "recorded", batchId, verdicts, version: sent.reply.version, at, by };
}
