import { writeFile } from "node:fs/promises";
import path from "node:path";
import type { Browser, BrowserContext } from "playwright-core";
import sharp from "sharp";
import { DEMO_PASSWORD, DEMO_TIME_ZONE } from "@/seed/demo-people";
import { SCENES, SCREENS, type Scene } from "./scenes";

interface Camera {
  readonly browser: Browser;
  /** The address of the demonstration. */
  readonly url: string;
  readonly folder: string;
  readonly tell: (line: string) => void;
}

/** Takes every picture, one after the other, each in a window of its own. */
export async function takePictures(camera: Camera): Promise<void> {
  for (const scene of SCENES) {
    const bytes = await take(camera, scene);
    camera.tell(`  ${scene.name}.webp, ${Math.round(bytes / 1024)} kB`);
  }
}

async function take(camera: Camera, scene: Scene): Promise<number> {
  const { width, height, scale } = SCREENS[scene.screen];
  const context = await camera.browser.newContext({
    baseURL: camera.url,
    viewport: { width, height },
    deviceScaleFactor: scale,
    hasTouch: scene.screen === "phone",
    colorScheme: scene.dark ? "dark" : "light",
    reducedMotion: "reduce",
    // The same on every machine: dates in fields are written after the browser's language.
    locale: "en-US",
    timezoneId: DEMO_TIME_ZONE,
  });
  try {
    return await photograph(context, scene, camera.folder);
  } finally {
    await context.close();
  }
}

async function photograph(context: BrowserContext, scene: Scene, folder: string): Promise<number> {
  const page = await context.newPage();
  await page.goto("/sign-in");
  await page.getByLabel(/user id/i).fill(scene.who);
  await page.getByLabel(/^password/i).fill(DEMO_PASSWORD);
  await page.getByRole("button", { name: /^sign in/i }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
  await scene.come(page);
  await page.evaluate(() => document.fonts.ready);
  const picture = await page.screenshot({ animations: "disabled", caret: "hide" });
  // Of flat colours and letters the exact picture is also the smaller one.
  const small = await sharp(picture).webp({ lossless: true, effort: 6 }).toBuffer();
  await writeFile(path.join(folder, `${scene.name}.webp`), small);
  return small.length;
}
