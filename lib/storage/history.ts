import type { Tx } from "@/lib/storage/client";

export interface LeafRow {
  readonly sequence: number;
  readonly body: string;
}

/** Leaves of a facility's history, newest first, before a sequence; of one room or person where asked. */
export async function leaves(
  tx: Tx,
  facilityId: string,
  query: {
    readonly room?: string | undefined;
    readonly person?: string | undefined;
    readonly before?: number | undefined;
    readonly limit: number;
  },
): Promise<LeafRow[]> {
  const rows = await tx.$queryRaw<{ sequence: bigint; body: string }[]>`
    SELECT l.sequence, l.body FROM history.leaf l
    WHERE l.facility_id = ${facilityId}::uuid
      AND (${query.before ?? null}::bigint IS NULL OR l.sequence < ${query.before ?? null}::bigint)
      AND (${query.room ?? null}::text IS NULL OR (l.body::jsonb #> '{entry,rooms}') @> jsonb_build_array(jsonb_build_object('id', ${query.room ?? null}::text)))
      AND (${query.person ?? null}::text IS NULL OR l.body::jsonb #>> '{entry,person,id}' = ${query.person ?? null}::text)
    ORDER BY l.sequence DESC LIMIT ${query.limit}`;
  return rows.map(({ sequence, body }) => ({ sequence: Number(sequence), body }));
}
