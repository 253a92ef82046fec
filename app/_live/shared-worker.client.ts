import type { Connection, LiveMessage, OnMessage } from "./messages";

export type ToWorker = { type: "join"; facilityId: string } | { type: "renew" } | { type: "leave" };

/** Joins the browser's shared worker. `onFailure` is called if the worker cannot be loaded. */
export function joinSharedWorker(facilityId: string, onMessage: OnMessage, onFailure: () => void): Connection {
  const worker = new SharedWorker(new URL("./live.worker.ts", import.meta.url), { name: "yokeboard live" });
  const send = (message: ToWorker) => worker.port.postMessage(message);
  worker.onerror = onFailure;
  worker.port.onmessage = ({ data }: MessageEvent<LiveMessage>) => onMessage(data);
  send({ type: "join", facilityId });
  return {
    renew: () => send({ type: "renew" }),
    close: () => {
      send({ type: "leave" });
      worker.port.close();
    },
  };
}
