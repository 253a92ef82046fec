"use client";

import { useCallback, useRef, useState } from "react";
import { mayRetry, type Problem, type Reply, sendCommand } from "./api.client";
import type { CommandName, Commands } from "./command-types";
import { newRequestId } from "./request-id";

/**
 * One command behind one control: busy while it runs, the problem if it was refused. A second press while it runs does nothing.
 * When the server was not reached, pressing again with the same input repeats the same intent (same key).
 */
export function useCommand<Name extends CommandName>(name: Name) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem | null>(null);
  const unanswered = useRef<{ body: string; key: string } | null>(null);
  const running = useRef(false);

  const send = useCallback(
    async (input: Commands[Name]["input"]): Promise<Reply<Commands[Name]["reply"]> | null> => {
      if (running.current) return null;
      running.current = true;
      setBusy(true);
      setProblem(null);
      const body = JSON.stringify(input);
      const key = unanswered.current?.body === body ? unanswered.current.key : newRequestId();
      const reply = await sendCommand(name, input, { key });
      unanswered.current = !reply.ok && mayRetry(reply.problem) ? { body, key } : null;
      running.current = false;
      setBusy(false);
      setProblem(reply.ok ? null : reply.problem);
      return reply;
    },
    [name],
  );

  const reset = useCallback(() => setProblem(null), []);
  return { send, busy, problem, reset };
}
