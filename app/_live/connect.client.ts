import { openEventStream } from "./event-stream.client";
import { LeaderConnection } from "./leader.client";
import type { Connection, OnMessage } from "./messages";
import { joinSharedWorker } from "./shared-worker.client";

/**
 * One stream for each browser, by the best means it has: a shared worker, else tabs that agree on a leader, else (a phone on plain
 * http has neither) a stream of this tab's own.
 */
export function connect(facilityId: string, onMessage: OnMessage): Connection {
  if (typeof SharedWorker === "undefined") return withoutWorker(facilityId, onMessage);
  let current: Connection;
  let closed = false;
  const fallBack = () => {
    current?.close();
    if (!closed) current = withoutWorker(facilityId, onMessage);
  };
  current = joinSharedWorker(facilityId, onMessage, fallBack);
  return {
    renew: () => current.renew(),
    close: () => {
      closed = true;
      current.close();
    },
  };
}

function withoutWorker(facilityId: string, onMessage: OnMessage): Connection {
  const tabsCanAgree = "locks" in navigator && typeof BroadcastChannel !== "undefined";
  return tabsCanAgree ? new LeaderConnection(facilityId, onMessage) : openEventStream(onMessage);
}
