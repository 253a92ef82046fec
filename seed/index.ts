import { addDays, dateIn, instant, instantAt, localTime } from "@/lib/units/time";
import { DEMO_TIME_ZONE } from "./demo-people";
import { type Connections, foundHospital, gatherStatistics, storiesOf, withDatabase } from "./hospital";
import { morningSoFar, QUILLHAVEN_MORNING, SALTMERE_MORNING } from "./today";
import { workingDay } from "./working-day";

export interface Seeding extends Connections {
  readonly now: number;
  readonly progress: (done: number, total: number, what: string) => void;
}

/** The hospital from nothing, with its history up to yesterday evening: everything in it was done by a command. */
export async function seedHistory({
  days,
  now,
  progress,
  ...connections
}: Seeding & { readonly days: number }): Promise<void> {
  const today = dateIn(DEMO_TIME_ZONE, instant(now));
  const dates = Array.from({ length: days }, (_, index) => addDays(today, index - days));
  const [first = today] = dates;
  const begins = instantAt(DEMO_TIME_ZONE, addDays(first, -1), localTime("14:00"));
  progress(0, days + 1, "departments");
  await foundHospital(connections, begins);
  await withDatabase(connections.databaseUrl, async (database) => {
    const stories = await storiesOf(database, begins);
    for (const [index, date] of dates.entries()) {
      progress(index + 1, days + 1, date);
      if (index === 1) await gatherStatistics(connections);
      await Promise.all(stories.map((story) => workingDay(story, date)));
    }
  });
}

/** The hospital from nothing as it is at this moment: some weeks of history, and this morning so far. */
export async function seed(seeding: Seeding & { readonly days: number }): Promise<void> {
  await seedHistory(seeding);
  const total = seeding.days + 1;
  await gatherStatistics(seeding);
  await makeMorning({ ...seeding, progress: (_done, _all, what) => seeding.progress(total, total, what) });
}

/** The morning of this moment in a hospital that is there: what was left open is ended, then the day begins. */
export async function makeMorning({ now, progress, databaseUrl }: Seeding): Promise<void> {
  progress(0, 1, "this morning");
  await withDatabase(databaseUrl, async (database) => {
    const [quillhaven, saltmere] = await storiesOf(database, instant(0));
    await Promise.all([
      morningSoFar(quillhaven, QUILLHAVEN_MORNING, instant(now)),
      morningSoFar(saltmere, SALTMERE_MORNING, instant(now)),
    ]);
  });
  progress(1, 1, "this morning");
}
