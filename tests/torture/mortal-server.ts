import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import path from "node:path";
import { freePort } from "@/lib/cli/embedded/start";

const READY_WITHIN_MS = 60_000;

interface Urls {
  readonly appUrl: string;
  readonly ownerUrl: string;
}

/** The production server in a process of its own that dies as in a power cut, and comes back on the same port. */
export class MortalServer {
  #child: ChildProcess | undefined;

  private constructor(
    private readonly urls: Urls,
    private readonly port: number,
  ) {}

  static async start(urls: Urls): Promise<MortalServer> {
    const server = new MortalServer(urls, await freePort());
    await server.start();
    return server;
  }

  get url(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  async start(): Promise<void> {
    const script = path.join(process.cwd(), "tests", "support", "app-process.ts");
    const child = spawn(process.execPath, ["--import", "tsx", script], {
      env: {
        ...process.env,
        NODE_ENV: "production",
        DATABASE_URL: this.urls.appUrl,
        DATABASE_OWNER_URL: this.urls.ownerUrl,
        NEXTAUTH_SECRET: "a secret of the torture, long enough for its purpose",
        YOKEBOARD_TEST_PORT: String(this.port),
      },
      // What it says about lost connections is expected here, and would bury the report.
      stdio: ["pipe", "pipe", "ignore"],
    });
    this.#child = child;
    await listening(child);
  }

  kill(): Promise<void> {
    return this.#end("SIGKILL");
  }

  stop(): Promise<void> {
    return this.#end("SIGTERM");
  }

  async #end(signal: NodeJS.Signals): Promise<void> {
    const child = this.#child;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const ended = once(child, "exit");
    child.kill(signal);
    await ended;
  }
}

function listening(child: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error("the server did not listen in time")), READY_WITHIN_MS);
    let said = "";
    child.stdout?.on("data", (chunk: Buffer) => {
      said += chunk.toString("utf8");
      if (!/^listening /m.test(said)) return;
      clearTimeout(late);
      resolve();
    });
    child.once("exit", (code, signal) => {
      clearTimeout(late);
      reject(new Error(`the server ended (${code ?? signal}) before it listened`));
    });
  });
}
