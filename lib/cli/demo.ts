import path from "node:path";
import { DEMO_PASSWORD } from "@/seed/demo-people";
import { daysFrom, readArguments, type ServeArguments, serveArguments } from "./arguments";
import { clockFileOf } from "./demo-clock";
import { prepareHospital } from "./demo-hospital";
import { describeDemo } from "./demo-words";
import { discardDataFolder } from "./embedded/discard";
import { requireFree } from "./embedded/folder-lock";
import { keepSecret } from "./embedded/passwords";
import { type Embedded, startEmbedded } from "./embedded/start";
import { ensureBuilt } from "./ensure-built";
import { runMain } from "./main";
import { type OpenServer, openServer } from "./server";
import { stopOnSignal } from "./until-stopped";

const HELP = `npm run demo -- [options]

  --port N        the port to serve on (4400)
  --data FOLDER   where the demonstration keeps its database (.data/demo)
  --days N        days of history to make at the first start (21)
  --reset         forget what was kept there and start over
  --host ADDRESS  listen on this address, 0.0.0.0 for all (127.0.0.1)
  --cert FILE     speak https with this certificate ...
  --key FILE      ... and its key`;

interface Demonstration {
  readonly folder: string;
  readonly reset: boolean;
  readonly days: number;
  readonly serve: ServeArguments;
}

const tell = (line: string) => console.log(line);

async function demo(): Promise<void> {
  const given = readArguments({ data: { type: "string" }, days: { type: "string" }, reset: { type: "boolean" } }, HELP);
  const wanted: Demonstration = {
    folder: path.resolve(typeof given.data === "string" ? given.data : path.join(".data", "demo")),
    reset: given.reset === true,
    // Weeks enough for a report to show a pattern.
    days: given.days === undefined ? 21 : daysFrom(String(given.days)),
    serve: serveArguments(given, { port: 4400, host: "127.0.0.1" }),
  };
  const running: { server?: OpenServer; database?: Embedded } = {};
  const stop = async () => {
    await running.server?.stop();
    await running.database?.stop();
  };
  const signalled = stopOnSignal(async () => {
    tell("\nStopping ...");
    await stop();
  });
  try {
    await start(wanted, running);
  } catch (error) {
    // What a stop on the way broke off is no error of anybody's.
    if (signalled()) return;
    await stop();
    throw error;
  }
}

async function start(
  { folder, reset, days, serve }: Demonstration,
  running: { server?: OpenServer; database?: Embedded },
) {
  requireFree(folder);
  running.server = await openServer(serve);
  if (reset) await discardDataFolder(folder);
  tell(`Starting the database in ${folder} ...`);
  running.database = await startEmbedded({ folder, tell });
  const clock = await prepareHospital({ folder, days, database: running.database, tell });
  await ensureBuilt(tell);
  Object.assign(process.env, {
    NODE_ENV: "production",
    YOKEBOARD_DEMO: "1",
    YOKEBOARD_DEMO_PASSWORD: DEMO_PASSWORD,
    YOKEBOARD_CLOCK_FILE: clockFileOf(folder),
    DATABASE_URL: running.database.appUrl,
    DATABASE_OWNER_URL: running.database.ownerUrl,
    NEXTAUTH_SECRET: keepSecret(folder, "session-secret"),
  });
  await running.server.serve();
  tell(describeDemo(running.server, clock));
}

runMain(demo);
