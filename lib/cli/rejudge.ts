import { rejudgeAll } from "@/lib/commands/rejudge";
import { openDatabase } from "@/lib/storage/client";
import { facilityScopes } from "@/lib/storage/sessions";
import { runMain } from "./main";
import { Problem } from "./problem";

const HELP = `npm run rejudge     rebuilds every judgement and task of every facility from its facts

  DATABASE_URL    postgresql://... as the application's role (the environment, not an option)

Nothing that anybody recorded is changed. Open boards follow by themselves.`;

async function main(): Promise<void> {
  const url = process.env.DATABASE_URL;
  if (!url) throw new Problem(`DATABASE_URL is not set.\n\n${HELP}`);
  const database = openDatabase(url);
  try {
    const scopes = await facilityScopes(database);
    for (const scope of scopes) {
      const judged = await rejudgeAll(database, { now: Date.now }, scope);
      console.log(`${scope.facilityId}: ${judged} rooms and spare workstations judged again.`);
    }
    if (scopes.length === 0) console.log("There is no facility in this database yet.");
  } finally {
    await database.close();
  }
}

runMain(main);
