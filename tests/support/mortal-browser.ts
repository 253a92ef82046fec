import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { BROWSER_FLAGS } from "@/lib/cli/pictures/chromium";
import { PHONE } from "./browser";
import { findChromium } from "./find-chromium";

/** A browser with a profile on the disk that can die as a phone's battery does, and come up again with what it kept. */
export interface MortalBrowser {
  page(): Promise<Page>;
  /** SIGKILL: nothing is written any more. Its main process alone is ended; its children end with it. */
  die(): Promise<void>;
  rise(): Promise<void>;
  remove(): Promise<void>;
}

export async function mortalBrowser(): Promise<MortalBrowser> {
  const folder = mkdtempSync(path.join(tmpdir(), "yokeboard-phone-"));
  let running = await launch(folder);
  const die = async () => {
    const { child } = running;
    if (child.exitCode !== null || child.signalCode !== null) return;
    // With its pipe closed its helpers have ended too, and nothing writes to the profile any more.
    const ended = once(child, "close");
    child.kill("SIGKILL");
    await ended;
  };
  return {
    page: async () => {
      const page = running.context.pages()[0] ?? (await running.context.newPage());
      await page.setViewportSize(PHONE.viewport);
      return page;
    },
    die,
    rise: async () => {
      running = await launch(folder);
    },
    remove: async () => {
      await die();
      rmSync(folder, { recursive: true, force: true, maxRetries: 30, retryDelay: 100 });
    },
  };
}

async function launch(folder: string): Promise<{ child: ChildProcess; context: BrowserContext }> {
  const flags = [...BROWSER_FLAGS, "--headless=new", "--remote-debugging-port=0", `--user-data-dir=${folder}`];
  const child = spawn(await findChromium(), [...flags, "about:blank"], { stdio: ["ignore", "ignore", "pipe"] });
  const address = await new Promise<string>((resolve, reject) => {
    let said = "";
    child.stderr?.on("data", (chunk: Buffer) => {
      said += chunk.toString("utf8");
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (found?.[1]) resolve(found[1]);
    });
    child.once("exit", (code) => reject(new Error(`Chromium ended with ${code} before it listened:\n${said}`)));
  });
  const browser = await chromium.connectOverCDP(address);
  const [context] = browser.contexts();
  if (!context) throw new Error("Chromium has no window");
  return { child, context };
}
