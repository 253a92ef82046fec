"use client";

import { useEffect, useState, useSyncExternalStore } from "react";
import { openEventStream } from "@/app/_live/event-stream.client";
import { LIVE, type LiveStatus, LiveStore } from "@/app/_live/live-store.client";
import type { WallBoard } from "@/lib/schemas/wall";

const WALL_EVENTS = "/api/v1/wall/events";
const TICK_MS = 1_000;

export interface LiveWall {
  readonly wall: WallBoard;
  readonly live: LiveStatus;
  /** The server's time in milliseconds. */
  readonly now: number;
  /** The server has ended this screen's session or registration. */
  readonly ended: boolean;
}

/** The wall, kept live by a stream of its own: each change brings all rooms, so that there is nothing to miss and nothing to ask. */
export function useWall(initial: WallBoard): LiveWall {
  const [wall, setWall] = useState(initial);
  const [now, setNow] = useState(() => Date.parse(initial.at));
  const [ended, setEnded] = useState(false);
  const [store] = useState(
    () =>
      new LiveStore(initial.facility.id, {
        connect: (_, onMessage) => openEventStream(onMessage, WALL_EVENTS),
        sessionHasEnded: () => setEnded(true),
      }),
  );
  useEffect(() => {
    store.readAt(Date.parse(initial.at));
    const deaf = store.hear((event) => {
      if (event.name !== "wall") return;
      setEnded(false);
      const { sequence, at, rooms } = event.data;
      setWall((held) => ({ ...held, sequence, at, rooms }));
    });
    const timer = setInterval(() => setNow((before) => store.clock.now() ?? before), TICK_MS);
    store.start();
    return () => {
      deaf();
      clearInterval(timer);
      store.stop();
    };
  }, [store, initial]);
  const live = useSyncExternalStore(
    store.watch,
    () => store.status,
    () => LIVE,
  );
  return { wall, live, now, ended };
}
