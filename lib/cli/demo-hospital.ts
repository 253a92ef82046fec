import { existsSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { migrate } from "@/lib/storage/migrate";
import { instant } from "@/lib/units/time";
import { DEMO_TIME_ZONE } from "@/seed/demo-people";
import { makeMorning, seed } from "@/seed/index";
import { clockForStart, type DemoClock, readClock, writeClock } from "./demo-clock";
import { recreateDatabase } from "./embedded/roles";
import type { Embedded } from "./embedded/start";
import { progressLine } from "./progress";

export interface HospitalOptions {
  readonly folder: string;
  readonly database: Embedded;
  /** Of history, made at the first start. */
  readonly days: number;
  readonly tell: (line: string) => void;
}

/** Fills an empty database with the invented hospital, or brings a known one to its running or next morning. */
export async function prepareHospital({ folder, database, days, tell }: HospitalOptions): Promise<DemoClock> {
  // There while the hospital is being filled: a run that was killed then left a part of it, and nothing of anybody's own.
  const unfinished = path.join(folder, "seeding");
  if (existsSync(unfinished)) {
    tell("The last start was cut short while filling the hospital: starting over.");
    await recreateDatabase(database.superuserUrl);
  }
  await migrate(database.ownerUrl);
  const kept = existsSync(unfinished) ? undefined : readClock(folder);
  const clock = clockForStart(kept, instant(Date.now()), DEMO_TIME_ZONE);
  const now = Date.now() + clock.offset;
  const urls = { databaseUrl: database.appUrl, ownerUrl: database.ownerUrl };
  if (kept === undefined) {
    writeFileSync(unfinished, "");
    const progress = progressLine(tell, "Filling the hospital");
    await seed({ ...urls, now, days, progress });
    writeClock(folder, { ...clock, made: true });
    rmSync(unfinished);
  } else if (!clock.made) {
    // Written before the morning is made, so that a run killed meanwhile goes on to the next day and never back.
    writeClock(folder, clock);
    await makeMorning({ ...urls, now, progress: progressLine(tell, "Making the morning") });
    writeClock(folder, { ...clock, made: true });
  }
  return { ...clock, made: true };
}
