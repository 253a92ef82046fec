import type { Page } from "playwright-core";

/** What a job cost a person: taps by finger or mouse, and the seconds it took here. */
export interface Job {
  taps(): number;
  /** Prints one line, so that a run shows what each job costs. */
  tell(what: string): void;
}

/** Counts from the next page that is loaded; the page's own clicks on labels and inputs are one tap. */
export async function countTaps(page: Page): Promise<Job> {
  let taps = 0;
  const started = performance.now();
  await page.exposeFunction("countTap", () => {
    taps += 1;
  });
  await page.addInitScript(() => {
    const count = (event: PointerEvent) => {
      if (event.isPrimary) (window as unknown as { countTap: () => void }).countTap();
    };
    window.addEventListener("pointerdown", count, { capture: true });
  });
  await page.reload();
  return {
    taps: () => taps,
    tell: (what) =>
      process.stdout.write(`${what}: ${taps} taps, ${((performance.now() - started) / 1000).toFixed(1)} s\n`),
  };
}
