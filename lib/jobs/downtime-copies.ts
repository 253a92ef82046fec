import { mkdir, rename, writeFile } from "node:fs/promises";
import path from "node:path";
import { runEvery } from "@/lib/jobs/every";
import { readDowntimeOf } from "@/lib/queries/downtime";
import type { DowntimeView } from "@/lib/schemas/downtime";
import { appDatabase, type Database } from "@/lib/storage/client";
import { facilityScopes } from "@/lib/storage/sessions";
import type { Instant } from "@/lib/units/time";

export interface Copies {
  readonly database: Database;
  readonly now: () => Instant;
  /** Where another machine can print from without this server: a share of the printer's own, for one. */
  readonly folder: string;
  /** The morning as a file: the same one that a person prints. */
  readonly render: (view: DowntimeView) => Promise<Buffer>;
}

/**
 * Writes each facility's morning beside the server, as the page prints it. A copy is whole or not there: it is written under another
 * name and then takes the place of the one before. The names of the files written.
 */
export async function keepCopies({ database, now, folder, render }: Copies): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  const written: string[] = [];
  for (const scope of await facilityScopes(database)) {
    const view = await readDowntimeOf(scope, { database, now });
    const name = `morning-${fileName(view.facility)}-${scope.facilityId.slice(0, 8)}.pdf`;
    const half = path.join(folder, `.${name}.part`);
    await writeFile(half, await render(view), { mode: 0o640 });
    await rename(half, path.join(folder, name));
    written.push(name);
  }
  return written;
}

const fileName = (facility: string): string =>
  facility
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");

const EVERY_MS = 15 * 60_000;

/**
 * Keeps the copies in the folder that YOKEBOARD_DOWNTIME_FOLDER names, from the start and every quarter of an hour; without it, none, and
 * then what draws them is not even loaded.
 */
export function startDowntimeCopies(now: () => Instant, loadRender: () => Promise<Copies["render"]>): void {
  const folder = process.env.YOKEBOARD_DOWNTIME_FOLDER;
  if (!folder || !process.env.DATABASE_URL) return;
  const keep = async () => keepCopies({ database: appDatabase(), now, folder, render: await loadRender() });
  runEvery("downtime copies", EVERY_MS, keep, true);
}
