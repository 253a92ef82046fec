"use client";

import { useQuery } from "@tanstack/react-query";
import { useEffect, useMemo } from "react";
import { viewOrThrow } from "@/app/_parts/api.client";
import type { Board } from "@/lib/schemas/board";
import { boardKey } from "./board-keeper.client";
import { useLiveContext } from "./live-provider.client";
import type { LiveStatus } from "./live-store.client";
import { useLive } from "./use-live.client";
import { useServerNow } from "./use-server-now.client";

export interface LiveBoard {
  readonly board: Board;
  readonly live: LiveStatus;
  /** The server's time; screens turn over by it. */
  readonly now: number;
  /** Rooms whose judgement the clock has ended and whose new one is not here yet: not to be shown as judged. */
  readonly unjudged: ReadonlySet<string>;
}

/** Known to lack something for longer than this is as good as not live. */
const MISSING_AT_MOST_MS = 10_000;
/** The server judges such rows by itself and sends them; only if that does not come is it asked. */
const ASK_AFTER_MS = 1_500;

/** The board, kept live; `initial` is what the page was rendered with. */
export function useBoard(initial: Board): LiveBoard {
  const { keeper } = useLiveContext();
  const facilityId = initial.facility.id;
  const { data: board } = useQuery({
    queryKey: boardKey(facilityId),
    queryFn: async () => keeper.bringUpToDate(await viewOrThrow<Board>("/api/v1/board")),
    initialData: initial,
    staleTime: Number.POSITIVE_INFINITY,
    refetchOnWindowFocus: false,
    refetchOnReconnect: false,
  });
  useEffect(() => keeper.offer(initial), [keeper, initial]);

  const ends = useMemo(
    () => board.rooms.flatMap(({ goodUntil }) => (goodUntil === null ? [] : [Date.parse(goodUntil)])),
    [board],
  );
  const now = useServerNow(Date.parse(initial.at), ends);
  const unjudged = useMemo(() => overtaken(board, now), [board, now]);
  const isWaiting = unjudged.size > 0;
  useEffect(() => {
    if (!isWaiting) return;
    const timer = setInterval(() => keeper.readAgain(), ASK_AFTER_MS);
    return () => clearInterval(timer);
  }, [keeper, isWaiting]);

  const status = useLive();
  const live: LiveStatus =
    keeper.missingFor() > MISSING_AT_MOST_MS && status.state === "live"
      ? { state: "not-live", since: Date.parse(board.at) }
      : status;
  return { board, live, now, unjudged };
}

function overtaken(board: Board, now: number): ReadonlySet<string> {
  return new Set(
    board.rooms
      .filter(({ goodUntil }) => goodUntil !== null && Date.parse(goodUntil) <= now)
      .map(({ roomId }) => roomId),
  );
}
