import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import path from "node:path";
import { chromiumHere } from "@/lib/cli/pictures/chromium";

/**
 * Finds a Chromium, or installs one: the one CHROMIUM names, the machine's own, Playwright's, then
 * Debian's package, then Playwright's download. With none of them the browser tests fail and say so;
 * they are never left out.
 */
export async function findChromium(): Promise<string> {
  const found = chromiumHere();
  if (found) return found;
  const tried = [installFromDebian(), downloadPlaywrights()];
  const installed = chromiumHere();
  if (installed) return installed;
  throw new Error(
    `There is no Chromium for the browser tests, and none could be installed:\n${tried.join("\n")}\n` +
      "Install Chromium or Google Chrome, or set CHROMIUM to its path.",
  );
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
  if (chromiumHere()) return "";
  const home = path.dirname(createRequire(import.meta.url).resolve("playwright-core/package.json"));
  const { stderr, status } = spawnSync(process.execPath, [path.join(home, "cli.js"), "install", "chromium"], {
    encoding: "utf8",
  });
  return `playwright-core install chromium: exit code ${status}, ${lastLine(stderr)}`;
}

function lastLine(text: string): string {
  return text.trim().split("\n").at(-1) ?? "";
}
