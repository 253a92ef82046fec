import { facilityOfDevice, forgetDevice } from "@/lib/auth/device";
import { actorOfSession, forgetSession } from "@/lib/auth/session";
import { appDatabase, listenerConnectionString } from "@/lib/storage/client";
import { systemClock } from "./clock";
import { databaseSource } from "./database-source";
import { Hub } from "./hub";

/** What the server stops before it ends; see lib/cli/stop-serving.ts. */
interface Shared {
  __yokeboardHub?: Hub;
  __yokeboardStreams?: Set<{ close(): void }>;
  __yokeboardClosers?: Set<() => Promise<void>>;
}

const shared = globalThis as Shared;

/** This instance's hub, begun when first asked for. On globalThis, because a page and a route may see two instances of one module. */
export function runningHub(): Hub {
  shared.__yokeboardHub ??= begin();
  return shared.__yokeboardHub;
}

function begin(): Hub {
  const clock = systemClock();
  const hub = new Hub({
    connectionString: listenerConnectionString(),
    source: databaseSource(appDatabase(), () => clock.now()),
    now: () => clock.now(),
    // A stream belongs to a person's session or to a wall device; both end by the same word.
    facilityOfSession: async (key) => (await actorOfSession(key))?.facility.id ?? (await facilityOfDevice(key)),
    forgetSession: (key) => {
      forgetSession(key);
      forgetDevice(key);
    },
    report: (problem) => console.error("live:", problem instanceof Error ? problem.message : problem),
  });
  shared.__yokeboardStreams ??= new Set();
  shared.__yokeboardStreams.add({ close: () => hub.closeStreams() });
  shared.__yokeboardClosers ??= new Set();
  shared.__yokeboardClosers.add(() => hub.close());
  return hub;
}
