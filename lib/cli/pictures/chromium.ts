import { accessSync, constants } from "node:fs";
import { type Browser, chromium } from "playwright-core";
import { Problem } from "@/lib/cli/problem";

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

/** What a browser needs as root in a container, and what keeps it from talking to anybody but the page's server. */
export const BROWSER_FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** The Chromium that CHROMIUM names, or the machine's own, or Playwright's; undefined when there is none. A name that cannot be run is told. */
export function chromiumHere(): string | undefined {
  const named = process.env.CHROMIUM;
  if (!named) return [...INSTALLED, chromium.executablePath()].find(canRun);
  if (canRun(named)) return named;
  throw new Problem(`CHROMIUM names ${named}, which is not a program that can be run. Set it to a Chromium's path.`);
}

/** The same, where nothing is installed for a picture. */
export function findChromium(): string {
  const found = chromiumHere();
  if (found) return found;
  throw new Problem(
    "There is no Chromium to take the pictures with. Install Chromium or Google Chrome (Debian: apt-get install chromium), " +
      "or set CHROMIUM to its path.",
  );
}

export const openBrowser = (executablePath: string): Promise<Browser> =>
  chromium.launch({ executablePath, args: [...BROWSER_FLAGS, "--font-render-hinting=none"] });

function canRun(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
