import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import path from "node:path";

export interface DemoRun {
  readonly child: ChildProcess;
  /** Everything it has said so far. */
  said(): string;
  /** Resolves when it says that it is ready; rejects if it ends before. */
  ready(): Promise<void>;
  /** The exit code, when it has ended. */
  ended(): Promise<number | null>;
}

/** `npm run demo` as its own process, by the same program that npm runs. */
export function runDemo(...words: string[]): DemoRun {
  const child = spawn(process.execPath, ["--import", "tsx", path.join("lib", "cli", "demo.ts"), ...words], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let text = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (chunk: Buffer) => {
      text += chunk.toString("utf8");
    });
  }
  const end = once(child, "close");
  return {
    child,
    said: () => text,
    ready: () =>
      new Promise((resolve, reject) => {
        const look = () => text.includes("Yokeboard is ready") && resolve();
        child.stdout.on("data", look);
        look();
        end.then(([code]) => reject(new Error(`The demonstration ended with exit code ${code}:\n${text}`)), reject);
      }),
    ended: async () => {
      await end;
      return child.exitCode;
    },
  };
}
