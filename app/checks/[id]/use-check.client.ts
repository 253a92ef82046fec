"use client";

import { type Dispatch, useCallback, useEffect, useEffectEvent, useReducer, useRef, useState } from "react";
import { useOnChange } from "@/app/_live/use-live.client";
import { serverSaid } from "@/app/_offline/device-clock.client";
import { keepCheck } from "@/app/_offline/kept-checks.client";
import { keepAnswer } from "@/app/_offline/make-entry.client";
import { useKeeps } from "@/app/_offline/use-outbox.client";
import { readTyped, type Typed } from "@/app/_parts/answer/typed";
import { fetchView, sendCommand } from "@/app/_parts/api.client";
import { newRequestId } from "@/app/_parts/request-id";
import type { Answer } from "@/lib/domain/answer";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import type { KeptOnDevice } from "@/lib/schemas/offline";
import { type CheckAction, type CheckState, looksFailing, nextState, startState } from "./check-state";
import { readKept, writeTyped } from "./kept.client";
import { useSender } from "./use-sender.client";

interface Person {
  readonly id: string;
  readonly name: string;
  readonly facilityId: string;
}

/** One check being done: what is answered, typed and on its way, kept on this device until the server has it. */
export function useCheck(initial: CheckView, person: Person, began: KeptOnDevice["began"] = null) {
  const [state, dispatch] = useReducer(nextState, initial, startState);
  const keeps = useKept(state, dispatch, person.id);
  useKeptView(state.view, person, began);
  const { sending, hurry } = useSender(state.view, state.queue[0] ?? null, dispatch, person.name);
  useDrafts(state);
  const refresh = useRefresh(state, dispatch);

  const type = useCallback(
    (item: CheckItemView, typed: Typed) => dispatch({ type: "typed", key: item.key, typed }),
    [],
  );

  const { view } = state;
  /** Takes what the fields say as the item's answer; tells what is missing instead, or whether the answer plainly fails. */
  const give = useCallback(
    (item: CheckItemView, typed: Typed, sure = false): "missing" | "failing" | "given" => {
      const read = readTyped(item.form, typed);
      if (!read.ok) {
        dispatch({ type: "typed", key: item.key, typed });
        dispatch({ type: "missing", key: item.key, error: read });
        return "missing";
      }
      const id = newRequestId();
      const answer = sure ? confirmed(read.answer) : read.answer;
      keepAnswer({ id, view, item, answer, person, facilityId: person.facilityId, began });
      dispatch({ type: "given", key: item.key, answer, batchId: id });
      return looksFailing(item, answer) ? "failing" : "given";
    },
    [view, person, began],
  );

  /** What is still half-typed belongs to no check any more once this one is signed. */
  const forget = useCallback(() => dispatch({ type: "signed" }), []);

  return { state, sending, keeps, hurry, type, give, refresh, forget };
}

/** The person was asked about a reading far from its history, and said that it is right. */
const confirmed = (answer: Answer): Answer =>
  answer.kind === "number" || answer.kind === "gauge" ? { ...answer, sure: true } : answer;

/** Restores what this device kept, and keeps every change at once. False when the browser keeps nothing. */
function useKept(state: CheckState, dispatch: Dispatch<CheckAction>, personId: string): boolean {
  const [restored, setRestored] = useState(false);
  const { typed } = state;
  const checkId = state.view.id;
  const restore = useEffectEvent(() => readKept(state.view, personId));
  useEffect(() => {
    let left = false;
    restore().then((kept) => {
      if (left) return;
      dispatch({ type: "restored", kept });
      setRestored(true);
    });
    return () => {
      left = true;
    };
  }, [dispatch]);
  useEffect(() => {
    if (restored) writeTyped(checkId, personId, typed);
  }, [restored, checkId, personId, typed]);
  return useKeeps();
}

/** The check stays on the device as it was last seen, to go on with it where nothing is reached. */
function useKeptView(view: CheckView, person: Person, began: KeptOnDevice["began"]): void {
  const { id: personId, facilityId } = person;
  useEffect(() => {
    keepCheck(view, { personId, facilityId }, began);
  }, [view, personId, facilityId, began]);
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
    serverSaid(reply.value.at);
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
