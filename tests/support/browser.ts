import { type Browser, chromium } from "playwright-core";
import { BROWSER_FLAGS } from "@/lib/cli/pictures/chromium";
import { findChromium } from "./find-chromium";

/** The sizes every screen is looked at in. */
export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true } as const;
export const DESK = { viewport: { width: 1440, height: 900 } } as const;
export const WALL = { viewport: { width: 1920, height: 1080 } } as const;

export async function launchBrowser(flags: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: await findChromium(), args: [...BROWSER_FLAGS, ...flags] });
}
