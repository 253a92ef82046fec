"use client";

import { useEffect, useEffectEvent, useSyncExternalStore } from "react";
import { useLiveContext } from "./live-provider.client";
import { type ChangeEvent, LIVE, type LiveStatus } from "./live-store.client";

/** A command touches several rooms, and a morning brings bursts: one call for what arrives close together. */
const GATHER_MS = 150;

/** Is what this tab shows still being kept up to date? */
export function useLive(): LiveStatus {
  const { store } = useLiveContext();
  return useSyncExternalStore(
    store.watch,
    () => store.status,
    () => LIVE,
  );
}

/** For what is told to everybody with the whole board, and to nobody with a room. */
export const WHOLE_BOARD_ONLY: readonly string[] = [];

/** Calls back when something about one of the rooms (or spare workstations, by id) may have changed. */
export function useOnChange(ids: readonly string[] | "all", callback: () => void): void {
  const { store } = useLiveContext();
  const wanted = ids === "all" ? "all" : [...ids].sort().join(" ");
  const call = useEffectEvent(callback);
  useEffect(() => {
    const isMine = concerns(wanted === "all" ? "all" : new Set(wanted.split(" ")));
    let timer: ReturnType<typeof setTimeout> | undefined;
    const deaf = store.hear((event) => {
      if (!isMine(event)) return;
      clearTimeout(timer);
      timer = setTimeout(() => call(), GATHER_MS);
    });
    return () => {
      deaf();
      clearTimeout(timer);
    };
  }, [store, wanted]);
}

/** A hello follows a break, in which anything may have happened. */
function concerns(ids: ReadonlySet<string> | "all") {
  return (event: ChangeEvent): boolean => {
    if (event.name !== "rows" || ids === "all" || event.data.complete) return true;
    return event.data.holders.some((id) => ids.has(id)) || event.data.rooms.some(({ roomId }) => ids.has(roomId));
  };
}
