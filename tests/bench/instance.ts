import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import path from "node:path";
import { freePort } from "@/lib/cli/embedded/start";

export interface Instance {
  readonly url: string;
  /** Processor time used so far, in milliseconds; null where the system does not tell. */
  processorMs(): number | null;
  stop(): Promise<void>;
}

const READY_WITHIN_MS = 60_000;

/** The production server in a process of its own, on a port that is free. */
export async function startInstance(urls: { readonly appUrl: string; readonly ownerUrl: string }): Promise<Instance> {
  const port = await freePort();
  const script = path.join(process.cwd(), "tests", "support", "app-process.ts");
  const child = spawn(process.execPath, ["--import", "tsx", script], {
    env: {
      ...process.env,
      NODE_ENV: "production",
      DATABASE_URL: urls.appUrl,
      DATABASE_OWNER_URL: urls.ownerUrl,
      NEXTAUTH_SECRET: "a secret of the benchmark, long enough for its purpose",
      YOKEBOARD_TEST_PORT: String(port),
    },
    stdio: ["pipe", "pipe", "inherit"],
  });
  await listening(child);
  return {
    url: `http://127.0.0.1:${port}`,
    processorMs: () => processorMsOf(child.pid ?? 0),
    stop: async () => {
      if (child.exitCode !== null) return;
      const ended = once(child, "exit");
      child.kill("SIGTERM");
      await ended;
    },
  };
}

const TICK_MS = 10;

/** Linux: user and system time are the 14th and 15th fields, counted from the one before the program's name in brackets. */
function processorMsOf(pid: number): number | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
    const [user, system] = stat
      .slice(stat.lastIndexOf(")") + 2)
      .split(" ")
      .slice(11, 13)
      .map(Number);
    return ((user ?? 0) + (system ?? 0)) * TICK_MS;
  } catch {
    return null;
  }
}

function listening(child: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error("the server did not listen in time")), READY_WITHIN_MS);
    const settle = (act: () => void) => {
      clearTimeout(late);
      act();
    };
    let said = "";
    child.stdout?.on("data", (chunk: Buffer) => {
      said += chunk.toString("utf8");
      if (/^listening /m.test(said)) settle(resolve);
    });
    child.once("exit", (code) => settle(() => reject(new Error(`the server ended with exit code ${code}`))));
  });
}
