import { startServer } from "@/lib/cli/server";
import { stopOnSignal } from "@/lib/cli/until-stopped";

/** The production server in a process of its own, so that a test may kill it; its parent reads the line it prints. */
const server = await startServer({ port: Number(process.env.YOKEBOARD_TEST_PORT) });
stopOnSignal(() => server.stop());
// A parent that is killed cannot say goodbye; its end of the pipe closes.
process.stdin.on("end", () => process.exit(1)).resume();
console.log(`listening ${server.url}`);
