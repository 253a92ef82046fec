"use client";

import { useEffect, useState, useSyncExternalStore } from "react";
import { openEventStream } from "@/app/_live/event-stream.client";
import { LIVE, type LiveStatus, LiveStore } from "@/app/_live/live-store.client";
import type { WallBoard } from "@/lib/schemas/wall";

const WALL_EVENTS = "/api/v1/wall/events";
const TICK_MS = 1_000;

/** Changes come in bursts; what is open for many rooms is asked for once after them. */
const ASK_AFTER_MS = 400;

/** Null when the answer does not come: the line then stays as it was, and the stream says what is not live. */
async function openEvents(): Promise<WallBoard["events"] | null> {
  try {
    const response = await fetch("/api/v1/wall", { cache: "no-store" });
    return response.ok ? ((await response.json()) as WallBoard).events : null;
  } catch {
    return null;
  }
}

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
    let asking: ReturnType<typeof setTimeout> | undefined;
    store.readAt(Date.parse(initial.at));
    const deaf = store.hear((event) => {
      if (event.name !== "wall") return;
      setEnded(false);
      const { sequence, at, rooms } = event.data;
      setWall((held) => ({ ...held, sequence, at, rooms }));
      clearTimeout(asking);
      asking = setTimeout(
        () => void openEvents().then((events) => events && setWall((held) => ({ ...held, events }))),
        ASK_AFTER_MS,
      );
    });
    const timer = setInterval(() => setNow((before) => store.clock.now() ?? before), TICK_MS);
    store.start();
    return () => {
      deaf();
      clearInterval(timer);
      clearTimeout(asking);
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
