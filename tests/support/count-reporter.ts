import type { Reporter, TestModule } from "vitest/node";

/** Says at the very end, on one plain line, how many tests passed and failed. */
export default class CountReporter implements Reporter {
  onTestRunEnd(modules: ReadonlyArray<TestModule>, unhandled: ReadonlyArray<unknown>): void {
    const { passed, failed } = countTests(modules);
    process.stdout.write(`${passed} passed, ${failed + unhandled.length} failed\n`);
  }
}

/** A file that could not even be collected counts as one failure, so that it cannot pass by holding nothing. */
function countTests(modules: ReadonlyArray<TestModule>): { passed: number; failed: number } {
  let passed = 0;
  let failed = 0;
  for (const module of modules) {
    failed += module.errors().length;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      if (state === "passed") passed += 1;
      else failed += 1;
    }
  }
  return { passed, failed };
}
