import { mkdirSync } from "node:fs";
import path from "node:path";
import { migrate } from "@/lib/storage/migrate";
import { instant, instantAt, localDate, localTime } from "@/lib/units/time";
import { DEMO_PASSWORD, DEMO_TIME_ZONE } from "@/seed/demo-people";
import { seed } from "@/seed/index";
import { readArguments, serveArguments } from "./arguments";
import { clockFileOf, writeClock } from "./demo-clock";
import { discardDataFolder } from "./embedded/discard";
import { requireFree } from "./embedded/folder-lock";
import { keepSecret } from "./embedded/passwords";
import { type Embedded, startEmbedded } from "./embedded/start";
import { ensureBuilt } from "./ensure-built";
import { runMain } from "./main";
import { takePictures } from "./pictures/camera";
import { findChromium, openBrowser } from "./pictures/chromium";
import { progressLine } from "./progress";
import { type OpenServer, openServer } from "./server";
import { stopOnSignal } from "./until-stopped";

const HELP = `npm run pictures -- [options]

Takes the pictures of the README and the docs from a demonstration of its own, always of the same morning.

  --out FOLDER    where the pictures go (docs/pictures)
  --data FOLDER   where its database is made anew (.data/pictures)
  --port N        the port to serve on (4480)`;

/** A Wednesday with two full weeks behind it. The morning is the same at every run, so that a picture changes only with its page. */
const DAY = localDate("2026-03-04");
const AT = instantAt(DEMO_TIME_ZONE, DAY, localTime("06:10"));
const DAYS_BEFORE = 14;

interface Running {
  server?: OpenServer;
  database?: Embedded;
  browser?: Awaited<ReturnType<typeof openBrowser>>;
}

const tell = (line: string) => console.log(line);

async function pictures(): Promise<void> {
  const given = readArguments({ data: { type: "string" }, out: { type: "string" } }, HELP);
  const folder = path.resolve(typeof given.data === "string" ? given.data : path.join(".data", "pictures"));
  const out = path.resolve(typeof given.out === "string" ? given.out : path.join("docs", "pictures"));
  // Said before anything slow is done.
  const chromium = findChromium();
  const running: Running = {};
  const stop = async () => {
    await running.browser?.close();
    await running.server?.stop();
    await running.database?.stop();
  };
  const signalled = stopOnSignal(stop);
  try {
    requireFree(folder);
    running.server = await openServer(serveArguments(given, { port: 4480, host: "127.0.0.1" }));
    await prepare(folder, running);
    await running.server.serve();
    running.browser = await openBrowser(chromium);
    mkdirSync(out, { recursive: true });
    tell(`Taking the pictures into ${out} ...`);
    await takePictures({ browser: running.browser, url: running.server.url, folder: out, tell });
  } catch (error) {
    if (signalled()) return;
    await stop();
    throw error;
  }
  await stop();
  process.exit(0);
}

/** The invented hospital from nothing, and the application that shows it. */
async function prepare(folder: string, running: Running): Promise<void> {
  await ensureBuilt(tell);
  await discardDataFolder(folder);
  tell(`Making the hospital in ${folder} ...`);
  const database = await startEmbedded({ folder, tell });
  running.database = database;
  await migrate(database.ownerUrl);
  const progress = progressLine(tell, "Filling the hospital");
  await seed({ databaseUrl: database.appUrl, ownerUrl: database.ownerUrl, now: AT, days: DAYS_BEFORE, progress });
  // Set last: from here on time goes on, and the pictures are taken in its first minutes.
  writeClock(folder, { offset: AT - instant(Date.now()), day: DAY, made: true });
  Object.assign(process.env, {
    NODE_ENV: "production",
    YOKEBOARD_DEMO: "1",
    YOKEBOARD_DEMO_PASSWORD: DEMO_PASSWORD,
    YOKEBOARD_CLOCK_FILE: clockFileOf(folder),
    DATABASE_URL: database.appUrl,
    DATABASE_OWNER_URL: database.ownerUrl,
    NEXTAUTH_SECRET: keepSecret(folder, "session-secret"),
  });
}

runMain(pictures);
