import { BadBackup } from "@/lib/storage/backup/read";
import { CannotRestore, restoreBackup } from "@/lib/storage/backup/restore";
import { backupArguments, onDatabase } from "./backup-database";
import { runMain } from "./main";
import { Problem } from "./problem";
import { progressLine } from "./progress";

const HELP = `npm run restore -- FILE        puts a backup into an empty database and compares its record with the roots in the file

  DATABASE_OWNER_URL    postgresql://... as the role that is to own the tables; the database must be empty
  --data FOLDER         instead of a server: a new data folder for the embedded database

The file is read to its end before anything is written. Either all of it comes back, or nothing.`;

const tell = (line: string) => console.log(line);

async function main(): Promise<void> {
  const { file, data } = backupArguments(HELP);
  await onDatabase({ data, help: HELP, tell }, async (ownerUrl) => {
    try {
      const { beginning, ending, applied } = await restoreBackup(ownerUrl, file, progressLine(tell, "Restoring"));
      tell(`Restored as it was at ${beginning.takenAt}.`);
      for (const { facility, size, root } of ending.roots)
        tell(`Record of ${facility}: ${size} entries, root ${root}, as backed up`);
      if (applied.length > 0) tell(`Brought up to this program: ${applied.join(", ")}.`);
    } catch (error) {
      throw error instanceof BadBackup || error instanceof CannotRestore ? new Problem(error.message) : error;
    }
  });
}

runMain(main);
