import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const root = fileURLToPath(new URL(".", import.meta.url));

/** Folders whose tests need PostgreSQL, a built server or a browser; every other folder runs without any of them. */
const onDatabase = ["storage", "commands", "queries", "auth", "jobs", "live", "exchange", "seed", "app", "platform"];
const testsIn = (folders: string[]) => folders.map((folder) => `tests/${folder}/**/*.test.{ts,tsx}`);

const shared = {
  globals: false,
  setupFiles: ["tests/support/quiet-console.ts"],
  restoreMocks: true,
};

export default defineConfig({
  resolve: { alias: { "@": root.replace(/\/$/, "") } },
  test: {
    // Two at a time: the database and the browser share the machine with the tests.
    maxWorkers: 2,
    reporters: ["default", "./tests/support/count-reporter.ts"],
    projects: [
      {
        extends: true,
        test: {
          ...shared,
          name: "pure",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: testsIn([...onDatabase, "browser"]),
          testTimeout: 15_000,
        },
      },
      {
        extends: true,
        test: {
          ...shared,
          name: "database",
          include: testsIn(onDatabase),
          globalSetup: ["tests/support/database-setup.ts"],
          testTimeout: 30_000,
          hookTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          ...shared,
          name: "browser",
          include: testsIn(["browser"]),
          globalSetup: ["tests/support/database-setup.ts", "tests/support/browser-setup.ts"],
          // After the others: two pages with their servers are enough for two processors.
          sequence: { groupOrder: 1 },
          testTimeout: 120_000,
          hookTimeout: 180_000,
        },
      },
    ],
  },
});
