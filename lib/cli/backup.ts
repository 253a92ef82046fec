import { existsSync, statSync } from "node:fs";
import path from "node:path";
import { takeBackup } from "@/lib/storage/backup/take";
import { instant } from "@/lib/units/time";
import { backupArguments, onDatabase } from "./backup-database";
import { runMain } from "./main";
import { Problem } from "./problem";
import { progressLine } from "./progress";

const HELP = `npm run backup -- FILE         writes everything of this moment into one new file, while the application goes on

  DATABASE_OWNER_URL    postgresql://... as the role that owns the tables (the environment, not an option)
  --data FOLDER         instead of a server: the embedded database of this data folder, running or not

The file holds the passwords' hashes: keep it as you keep the database. Sessions are not in it; after a restore everybody signs in again.`;

const tell = (line: string) => console.log(line);

async function main(): Promise<void> {
  const { file, data } = backupArguments(HELP);
  if (existsSync(file)) throw new Problem(`${file} exists already. A backup never overwrites one: give another name.`);
  if (!existsSync(path.dirname(path.resolve(file)))) throw new Problem(`There is no folder ${path.dirname(file)}.`);
  await onDatabase({ data, help: HELP, tell }, async (ownerUrl) => {
    const taken = await takeBackup(ownerUrl, file, instant(Date.now()), progressLine(tell, "Backing up"));
    const rows = Object.values(taken.rows).reduce((sum, count) => sum + count, 0);
    tell(`${file}: ${rows} rows of ${Object.keys(taken.rows).length} tables, ${statSync(file).size} bytes.`);
    for (const { facility, size, root } of taken.roots) tell(`Record of ${facility}: ${size} entries, root ${root}`);
  });
}

runMain(main);
