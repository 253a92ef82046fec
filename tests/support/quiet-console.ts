import { afterEach, beforeEach, expect, vi } from "vitest";

/**
 * A stray console.error or console.warn fails the test that caused it.
 * A test which expects one spies on console itself and so takes the place of this spy.
 */
const said: string[] = [];

beforeEach(() => {
  said.length = 0;
  for (const level of ["error", "warn"] as const) {
    vi.spyOn(console, level).mockImplementation((...words: unknown[]) => {
      said.push(`console.${level}: ${words.map(String).join(" ")}`);
    });
  }
});

afterEach(() => {
  expect(said, "nothing may be written to console.error or console.warn").toEqual([]);
});
