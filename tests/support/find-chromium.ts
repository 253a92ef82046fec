import { spawnSync } from "node:child_process";
import { accessSync, constants } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { chromium } from "playwright-core";

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

/**
 * Finds a Chromium, or installs one: the one CHROMIUM names, the machine's own, Playwright's, then
 * Debian's package, then Playwright's download. With none of them the browser tests fail and say so;
 * they are never left out.
 */
export async function findChromium(): Promise<string> {
  const named = process.env.CHROMIUM;
  if (named) {
    if (canRun(named)) return named;
    throw new Error(`CHROMIUM names ${named}, which is not a program that can be run.`);
  }
  const found = present();
  if (found) return found;
  const tried = [installFromDebian(), downloadPlaywrights()];
  const installed = present();
  if (installed) return installed;
  throw new Error(
    `There is no Chromium for the browser tests, and none could be installed:\n${tried.join("\n")}\n` +
      "Install Chromium or Google Chrome, or set CHROMIUM to its path.",
  );
}

function present(): string | undefined {
  return [...INSTALLED, chromium.executablePath()].find(canRun);
}

function canRun(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function installFromDebian(): string {
  if (process.getuid?.() !== 0) return "apt-get: only root may install packages";
  const run = (...words: string[]) =>
    spawnSync("apt-get", words, { encoding: "utf8", env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } });
  run("update");
  const { error, stderr, status } = run("install", "-y", "--no-install-recommends", "chromium");
  return `apt-get install chromium: ${error?.message ?? `exit code ${status}, ${lastLine(stderr)}`}`;
}

function downloadPlaywrights(): string {
  if (present()) return "";
  const home = path.dirname(createRequire(import.meta.url).resolve("playwright-core/package.json"));
  const { stderr, status } = spawnSync(process.execPath, [path.join(home, "cli.js"), "install", "chromium"], {
    encoding: "utf8",
  });
  return `playwright-core install chromium: exit code ${status}, ${lastLine(stderr)}`;
}

function lastLine(text: string): string {
  return text.trim().split("\n").at(-1) ?? "";
}
