import type { Actor } from "@/lib/auth/actor";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import type { HistoryEntry, HistoryPage } from "@/lib/schemas/history";
import { type LeafRow, leaves } from "@/lib/storage/history";
import { instantOf, timestampOf } from "@/lib/units/time";

interface Entry {
  command: string;
  person: { id: string; name: string };
  role: string | null;
  rooms: HistoryEntry["rooms"];
  workstations: HistoryEntry["workstations"];
  text: string;
  details: string[];
}

/** The facility's record, newest first, of one room or one person when asked. */
export const readHistory = (
  actor: Actor,
  query: {
    readonly room?: string | undefined;
    readonly person?: string | undefined;
    readonly before?: number | undefined;
    readonly limit: number;
  },
  reading: Reading = appReading(),
): Promise<HistoryPage> =>
  inFacility(
    actor,
    async (tx, frame) => {
      const rows = await leaves(tx, frame.scope.facilityId, { ...query, limit: query.limit + 1 });
      const entries = rows.slice(0, query.limit).map(entryOf);
      return { entries, next: rows.length > query.limit ? (entries.at(-1)?.sequence ?? null) : null };
    },
    reading,
  );

/** The entry is read from the exact text that was hashed, never from a copy beside it. */
export function entryOf(row: LeafRow): HistoryEntry {
  const { at, entry } = JSON.parse(row.body) as { at: string; entry: Entry };
  return {
    sequence: row.sequence,
    at: timestampOf(instantOf(at)),
    command: entry.command,
    person: entry.person,
    role: entry.role,
    rooms: entry.rooms,
    workstations: entry.workstations,
    text: entry.text,
    details: entry.details,
  };
}
