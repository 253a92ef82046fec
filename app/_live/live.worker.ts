import { Relay } from "./relay.client";
import type { ToWorker } from "./shared-worker.client";

/**
 * Holds the one event stream of a browser for all of its tabs. HTTP/1.1 allows six connections to a host:
 * with a stream in each, the seventh tab would hang.
 */
interface WorkerScope {
  onconnect: ((event: MessageEvent) => void) | null;
}

const ports = new Set<MessagePort>();
const relay = new Relay((message) => {
  for (const port of ports) port.postMessage(message);
});

function answer(port: MessagePort, asked: ToWorker): void {
  if (asked.type === "leave") ports.delete(port);
  if (asked.type === "renew") relay.renew();
  if (asked.type === "join") join(port, asked.facilityId);
}

function join(port: MessagePort, facilityId: string): void {
  ports.add(port);
  if (relay.isPastFor(facilityId)) relay.renew();
  const welcome = relay.welcome();
  if (welcome) port.postMessage(welcome);
}

(globalThis as unknown as WorkerScope).onconnect = ({ ports: [port] }) => {
  if (!port) return;
  port.onmessage = ({ data }: MessageEvent<ToWorker>) => answer(port, data);
};
