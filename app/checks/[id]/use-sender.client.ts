"use client";

import { type Dispatch, useCallback, useEffect, useEffectEvent, useState } from "react";
import { mayRetry, type Problem, sendCommand } from "@/app/_parts/api.client";
import type { CheckView } from "@/lib/schemas/check";
import type { Batch, CheckAction } from "./check-state";

export type Sending = "idle" | "sending" | "no-signal" | "sign-in";

interface Run {
  readonly tries: number;
  readonly trouble: "no-signal" | "sign-in" | null;
}

const FRESH: Run = { tries: 0, trouble: null };
const LONGEST_WAIT = 15_000;
const waitAfter = (tries: number): number => (tries === 0 ? 0 : Math.min(LONGEST_WAIT, 1_000 * 2 ** (tries - 1)));

/**
 * Sends the first batch of the queue, again and again until the server has answered it, always under the batch's own key. What the
 * server refuses goes back into the fields with its reason; what it could not hear stays in the queue.
 */
export function useSender(view: CheckView, first: Batch | null, dispatch: Dispatch<CheckAction>, by: string) {
  const [run, setRun] = useState<Run>(FRESH);
  const hurry = useCallback(() => setRun({ ...FRESH }), []);
  const send = useEffectEvent((batch: Batch) => record(view, batch, by));

  useEffect(() => {
    if (!first || run.trouble === "sign-in") return;
    let left = false;
    const attempt = async () => {
      const outcome = await send(first);
      if (left) return;
      if (outcome.type === "unheard") return setRun({ tries: run.tries + 1, trouble: outcome.why });
      setRun(FRESH);
      dispatch(outcome);
    };
    const timer = setTimeout(attempt, waitAfter(run.tries));
    return () => {
      left = true;
      clearTimeout(timer);
    };
  }, [first, run, dispatch]);

  useEffect(() => {
    window.addEventListener("online", hurry);
    return () => window.removeEventListener("online", hurry);
  }, [hurry]);

  const sending: Sending = first ? (run.trouble ?? "sending") : "idle";
  return { sending, hurry };
}

type Outcome = CheckAction | { readonly type: "unheard"; readonly why: "no-signal" | "sign-in" };

async function record(view: CheckView, batch: Batch, by: string): Promise<Outcome> {
  const items = new Map(view.items.map((item) => [item.key, item]));
  const answers = batch.answers.flatMap(({ key, answer }) => {
    const item = items.get(key);
    return item ? [{ item: item.item, subject: item.subject, answer }] : [];
  });
  const reply = await sendCommand("record-answers", { checkId: view.id, answers }, { key: batch.id });
  if (reply.ok) {
    const verdicts = Object.fromEntries(reply.value.recorded.map(({ key, verdict }) => [key, verdict]));
    return { type: "recorded", batchId: batch.id, verdicts, version: reply.value.version, at: view.at, by };
  }
  if (reply.problem.status === 401) return { type: "unheard", why: "sign-in" };
  if (mayRetry(reply.problem) || reply.problem.status === 429) return { type: "unheard", why: "no-signal" };
  return { type: "refused", batchId: batch.id, message: inWords(reply.problem) };
}

const inWords = ({ title, detail, errors }: Problem): string =>
  errors?.length ? errors.map(({ message }) => message).join(" ") : detail || title;
