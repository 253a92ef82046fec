import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { writeFileSync } from "node:fs";
import path from "node:path";
import { inject } from "vitest";
import { freePort } from "@/lib/cli/embedded/start";
import type { TestDatabase } from "./database";

export interface AppServer {
  readonly url: string;
  readonly port: number;
  /** As SIGTERM stops it; fails if it does not end in order. */
  stop(): Promise<void>;
  /** As a power cut stops it. */
  killHard(): Promise<void>;
  /** The same port and database again, after one of the two. */
  restart(): Promise<void>;
}

export interface AppServerOptions {
  readonly database: Pick<TestDatabase, "appUrl" | "ownerUrl">;
  /** What the application takes for now when it starts; the machine's clock if not given. */
  readonly now?: number;
  /** Shows the people to try, as the demonstration does. */
  readonly demo?: boolean;
  /** Further settings, such as an issuer's. */
  readonly environment?: Readonly<Record<string, string>>;
}

const READY_WITHIN_MS = 60_000;

/** The production server on a test's database. The build is made once a run (browser-setup.ts). */
export async function startAppServer(options: AppServerOptions): Promise<AppServer> {
  const port = await freePort();
  const clockFile = path.join(inject("testCluster").folder, `clock-${port}.json`);
  // The offset is fixed at the first start, so that time goes on through a restart.
  const offset = options.now === undefined ? 0 : options.now - Date.now();
  writeFileSync(clockFile, JSON.stringify({ offset }));
  const environment = environmentFor(options, port, clockFile);
  let child = await launch(environment);
  return {
    url: `http://127.0.0.1:${port}`,
    port,
    stop: async () => {
      const code = await end(child, "SIGTERM");
      if (code !== 0) throw new Error(`The server ended with exit code ${code} when it was asked to stop.`);
    },
    killHard: async () => {
      await end(child, "SIGKILL");
    },
    restart: async () => {
      child = await launch(environment);
    },
  };
}

function environmentFor(
  { database, demo, environment }: AppServerOptions,
  port: number,
  clockFile: string,
): NodeJS.ProcessEnv {
  return {
    ...process.env,
    NODE_ENV: "production",
    DATABASE_URL: database.appUrl,
    DATABASE_OWNER_URL: database.ownerUrl,
    NEXTAUTH_SECRET: "a secret of the tests, long enough for its purpose",
    YOKEBOARD_CLOCK_FILE: clockFile,
    YOKEBOARD_TEST_PORT: String(port),
    ...(demo ? { YOKEBOARD_DEMO: "1" } : {}),
    ...environment,
  };
}

async function launch(env: NodeJS.ProcessEnv): Promise<ChildProcess> {
  const script = path.join(process.cwd(), "tests", "support", "app-process.ts");
  const child = spawn(process.execPath, ["--import", "tsx", script], { env, stdio: ["pipe", "pipe", "pipe"] });
  let said = "";
  const listening = new Promise<void>((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`The server did not listen in time:\n${said}`)), READY_WITHIN_MS);
    const onText = (chunk: Buffer) => {
      said += chunk.toString("utf8");
      if (/^listening /m.test(said)) {
        clearTimeout(late);
        resolve();
      }
    };
    child.stdout?.on("data", onText);
    child.stderr?.on("data", onText);
    if (process.env.YOKEBOARD_TEST_LOG) child.stderr?.pipe(process.stderr);
    child.once("exit", (code) => {
      clearTimeout(late);
      reject(new Error(`The server ended with exit code ${code} before it listened:\n${said}`));
    });
  });
  await listening.catch((error: unknown) => {
    child.kill("SIGKILL");
    throw error;
  });
  return child;
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<number | null> {
  if (child.exitCode === null && child.signalCode === null) {
    const ended = once(child, "exit");
    child.kill(signal);
    await ended;
  }
  return child.exitCode;
}
