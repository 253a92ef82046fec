import { isOwn } from "@/lib/domain/own-question";
import type { Procedure } from "@/lib/domain/procedure/model";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

/** One stored version of a procedure. */
export interface StoredVersion {
  readonly id: string;
  readonly kind: CheckKind;
  readonly version: number;
  readonly inForceFrom: Timestamp;
  readonly document: Procedure;
}

interface VersionRow {
  id: string;
  kind: CheckKind;
  version: number;
  in_force_from: Date;
  document: Procedure;
}

const versionOf = ({ in_force_from, ...row }: VersionRow): StoredVersion => ({
  ...row,
  inForceFrom: timestampOf(instantOf(in_force_from.toISOString())),
});

/** A version is stored once and never edited. Its own questions stand beside it, where every reader finds them. */
export async function insertProcedure(
  tx: Tx,
  facilityId: string,
  id: string,
  procedure: Procedure,
  inForceFrom: Instant,
  draftId: string | null = null,
): Promise<void> {
  const own = procedure.items.filter(isOwn);
  await tx.$executeRaw`
    INSERT INTO procedure (facility_id, id, name, version, kind, document, in_force_from, own, draft_id)
    VALUES (${facilityId}::uuid, ${id}::uuid, ${procedure.name}, ${procedure.version}, ${procedure.kind}, ${JSON.stringify({ ...procedure, id })}::jsonb,
      ${timestampOf(inForceFrom)}::timestamptz, ${JSON.stringify(own)}::jsonb, ${draftId}::uuid)`;
}

/** The version of one kind that is in force at a moment; null when none is. */
export async function procedureInForce(
  tx: Tx,
  facilityId: string,
  kind: CheckKind,
  at: Instant,
): Promise<StoredVersion | null> {
  const [row] = await tx.$queryRaw<VersionRow[]>`
    SELECT id, kind, version, in_force_from, document FROM procedure
    WHERE facility_id = ${facilityId}::uuid AND kind = ${kind} AND in_force_from <= ${timestampOf(at)}::timestamptz
    ORDER BY version DESC LIMIT 1`;
  return row ? versionOf(row) : null;
}

/** Every version of every kind, newest first. */
export async function procedureVersions(tx: Tx, facilityId: string): Promise<StoredVersion[]> {
  const rows = await tx.$queryRaw<VersionRow[]>`
    SELECT id, kind, version, in_force_from, document FROM procedure
    WHERE facility_id = ${facilityId}::uuid ORDER BY kind, version DESC`;
  return rows.map(versionOf);
}

/** The newest version of one kind, in force or waiting to be; null when there is none. */
export async function newestVersion(tx: Tx, facilityId: string, kind: CheckKind): Promise<StoredVersion | null> {
  const [row] = await tx.$queryRaw<VersionRow[]>`
    SELECT id, kind, version, in_force_from, document FROM procedure
    WHERE facility_id = ${facilityId}::uuid AND kind = ${kind} ORDER BY version DESC LIMIT 1`;
  return row ? versionOf(row) : null;
}
