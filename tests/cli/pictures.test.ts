import { readdirSync } from "node:fs";
import { afterEach, describe, expect, it, vi } from "vitest";
import { findChromium } from "@/lib/cli/pictures/chromium";
import { SCENES } from "@/lib/cli/pictures/scenes";
import { Problem } from "@/lib/cli/problem";

afterEach(() => vi.unstubAllEnvs());

describe("the pictures", () => {
  it("are the ones that are taken: none is missing, and none is left from before", () => {
    const kept = readdirSync("docs/pictures").sort();
    expect(kept).toEqual(SCENES.map(({ name }) => `${name}.webp`).sort());
  });

  it("are not begun with a Chromium that is not there, and say which one", () => {
    vi.stubEnv("CHROMIUM", "/nowhere/chromium");
    expect(findChromium).toThrow(Problem);
    expect(findChromium).toThrow("CHROMIUM names /nowhere/chromium, which is not a program that can be run.");
  });

  it("are taken with the Chromium that is named", () => {
    vi.stubEnv("CHROMIUM", process.execPath);
    expect(findChromium()).toBe(process.execPath);
  });
});
