import { Problem } from "./problem";

/** Runs a command line's work: a problem the person can mend is said in its own words, anything else with its stack. */
export function runMain(work: () => Promise<void>): void {
  work().catch((error: unknown) => {
    console.error(error instanceof Problem ? error.message : error);
    process.exit(1);
  });
}
