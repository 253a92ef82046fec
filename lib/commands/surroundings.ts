import type { Clock, Surroundings } from "@/lib/commands/execute";
import { appDatabase } from "@/lib/storage/client";

/** What commands of the running application work on: its database, and the clock it was given. */
export const appSurroundings = (clock: Clock): Surroundings => ({ database: appDatabase(), clock });
