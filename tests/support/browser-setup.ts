import { ensureBuilt } from "@/lib/cli/ensure-built";
import { findChromium } from "./find-chromium";

/** Once a run, before the first browser test: a browser, and a build of what is to be tested. */
export default async function setUp(): Promise<void> {
  await findChromium();
  await ensureBuilt((line) => process.stdout.write(`${line}\n`));
}
