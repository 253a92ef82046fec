"use client";

import { type Dispatch, useCallback, useEffect, useEffectEvent, useReducer, useRef, useState } from "react";
import { useOnChange } from "@/app/_live/use-live.client";
import { readTyped, type Typed } from "@/app/_parts/answer/typed";
import { fetchView, sendCommand } from "@/app/_parts/api.client";
import { newRequestId } from "@/app/_parts/request-id";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { type CheckAction, type CheckState, looksFailing, nextState, startState } from "./check-state";
import { readKept, writeKept } from "./kept.client";
import { useSender } from "./use-sender.client";

interface Person {
  readonly id: string;
  readonly name: string;
}

/** One check being done: what is answered, typed and on its way, kept on this device until the server has it. */
export function useCheck(initial: CheckView, person: Person) {
  const [state, dispatch] = useReducer(nextState, initial, startState);
  const keeps = useKept(state, dispatch, person.id);
  const { sending, hurry } = useSender(state.view, state.queue[0] ?? null, dispatch, person.name);
  useDrafts(state);
  const refresh = useRefresh(state, dispatch);

  const type = useCallback(
    (item: CheckItemView, typed: Typed) => dispatch({ type: "typed", key: item.key, typed }),
    [],
  );

  /** Takes what the fields say as the item's answer; tells what is missing instead, or whether the answer plainly fails. */
  const give = useCallback((item: CheckItemView, typed: Typed): "missing" | "failing" | "given" => {
    const read = readTyped(item.form, typed);
    if (!read.ok) {
      dispatch({ type: "typed", key: item.key, typed });
      dispatch({ type: "missing", key: item.key, error: read });
      return "missing";
    }
    dispatch({ type: "given", key: item.key, answer: read.answer, batchId: newRequestId() });
    return looksFailing(item, read.answer) ? "failing" : "given";
  }, []);

  /** What is still half-typed belongs to no check any more once this one is signed. */
  const forget = useCallback(() => dispatch({ type: "signed" }), []);

  return { state, sending, keeps, hurry, type, give, refresh, forget };
}

/** Restores what this device kept, and keeps every change at once. False when the browser keeps nothing. */
function useKept(state: CheckState, dispatch: Dispatch<CheckAction>, personId: string): boolean {
  const [restored, setRestored] = useState(false);
  const [keeps, setKeeps] = useState(true);
  const { typed, queue } = state;
  const checkId = state.view.id;
  const restore = useEffectEvent(() => {
    const kept = readKept(state.view, personId);
    if (kept) dispatch({ type: "restored", kept });
  });
  useEffect(() => {
    restore();
    setRestored(true);
  }, []);
  useEffect(() => {
    if (restored) setKeeps(writeKept(checkId, personId, { typed, queue }));
  }, [restored, checkId, personId, typed, queue]);
  return keeps;
}

const PAUSE_BEFORE_DRAFT = 1_500;

/** Half-typed fields also go to the server, so that the person finds them on another device. Failing is no matter: they are kept here. */
function useDrafts({ view, typed }: CheckState) {
  const saved = useRef(typed);
  const checkId = view.id;
  useEffect(() => {
    if (saved.current === typed) return;
    const timer = setTimeout(async () => {
      const reply = await sendCommand("save-draft", { checkId, answers: { ...typed } }, { key: newRequestId() });
      if (reply.ok) saved.current = typed;
    }, PAUSE_BEFORE_DRAFT);
    return () => clearTimeout(timer);
  }, [typed, checkId]);
}

const PAUSE_BEFORE_REFRESH = 600;

/** Reads the check again once everything is sent, for names, times and earlier answers; another person may be answering it as well. */
function useRefresh({ view, queue }: CheckState, dispatch: Dispatch<CheckAction>) {
  const seen = useRef(view.version);
  const { id, version } = view;
  const refresh = useCallback(async (): Promise<CheckView | null> => {
    const reply = await fetchView<CheckView>(`/api/v1/checks/${id}`);
    if (!reply.ok) return null;
    seen.current = reply.value.version;
    dispatch({ type: "refreshed", view: reply.value });
    return reply.value;
  }, [id, dispatch]);
  useEffect(() => {
    if (queue.length > 0 || seen.current === version) return;
    const timer = setTimeout(refresh, PAUSE_BEFORE_REFRESH);
    return () => clearTimeout(timer);
  }, [queue, version, refresh]);
  useOnChange([view.room?.id ?? view.workstation.id], refresh);
  return refresh;
}
