import type { DraftState, ProcedureDraft, ProcedureText } from "@/lib/domain/procedure-change/model";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { type Instant, type LocalDate, timestampOf } from "@/lib/units/time";

/** Drafts of the next versions, the newest first: one of them, the open ones of a kind, or all. */
export async function procedureDrafts(
  tx: Tx,
  facilityId: string,
  only: { readonly id?: string; readonly openOf?: CheckKind } = {},
): Promise<ProcedureDraft[]> {
  const [row] = await tx.$queryRaw<{ drafts: ProcedureDraft[] }[]>`
    SELECT coalesce(json_agg(x), '[]') AS drafts FROM (
      SELECT d.id, d.kind, d.document AS text, d.base_id AS "baseId", d.revision, d.state, d.authors, d.saved_by AS "savedBy", s.name AS "savedByName",
        to_char(d.saved_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "savedAt", d.in_force_on AS "inForceOn", d.reason,
        p.name AS "proposedByName", CASE WHEN d.state = 'draft' THEN d.decision_reason END AS "declinedBecause"
      FROM procedure_draft d JOIN person s ON s.id = d.saved_by LEFT JOIN person p ON p.id = d.proposed_by
      WHERE d.facility_id = ${facilityId}::uuid AND (${only.id ?? null}::uuid IS NULL OR d.id = ${only.id ?? null}::uuid)
        AND (${only.openOf ?? null}::text IS NULL OR (d.kind = ${only.openOf ?? null}::text AND d.state IN ('draft', 'proposed')))
      ORDER BY d.saved_at DESC, d.id) x`;
  return row?.drafts ?? [];
}

export const procedureDraft = async (tx: Tx, facilityId: string, id: string): Promise<ProcedureDraft | null> =>
  (await procedureDrafts(tx, facilityId, { id }))[0] ?? null;

/** False when a draft of this kind was begun in the meantime. */
export async function insertDraft(
  tx: Tx,
  facilityId: string,
  draft: {
    readonly id: string;
    readonly kind: CheckKind;
    readonly text: ProcedureText;
    readonly baseId: string | null;
    readonly by: string;
    readonly at: Instant;
  },
): Promise<boolean> {
  const at = timestampOf(draft.at);
  const inserted = await tx.$executeRaw`
    INSERT INTO procedure_draft (facility_id, id, kind, document, base_id, revision, state, authors, begun_at, saved_by, saved_at)
    VALUES (${facilityId}::uuid, ${draft.id}::uuid, ${draft.kind}, ${JSON.stringify(draft.text)}::jsonb, ${draft.baseId}::uuid, 0, 'draft',
      ARRAY[]::uuid[], ${at}::timestamptz, ${draft.by}::uuid, ${at}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

/** False when somebody saved, proposed or dropped it in the meantime: of two at once one wins. */
export async function saveDraftText(
  tx: Tx,
  facilityId: string,
  save: {
    readonly id: string;
    readonly revision: number;
    readonly text: ProcedureText;
    readonly by: string;
    readonly at: Instant;
  },
): Promise<boolean> {
  const changed = await tx.$executeRaw`
    UPDATE procedure_draft SET document = ${JSON.stringify(save.text)}::jsonb, revision = revision + 1, saved_by = ${save.by}::uuid,
      saved_at = ${timestampOf(save.at)}::timestamptz,
      authors = CASE WHEN ${save.by}::uuid = ANY (authors) THEN authors ELSE array_append(authors, ${save.by}::uuid) END
    WHERE facility_id = ${facilityId}::uuid AND id = ${save.id}::uuid AND revision = ${save.revision}::int AND state = 'draft'`;
  return changed === 1;
}

/** Who proposes a draft is one of its authors, also when they took it whole from a ready-made one. */
export async function markProposed(
  tx: Tx,
  facilityId: string,
  proposal: {
    readonly id: string;
    readonly revision: number;
    readonly inForceOn: LocalDate;
    readonly reason: string;
    readonly by: string;
    readonly at: Instant;
  },
): Promise<boolean> {
  const changed = await tx.$executeRaw`
    UPDATE procedure_draft SET state = 'proposed', in_force_on = ${proposal.inForceOn}::date, reason = ${proposal.reason}, proposed_by = ${proposal.by}::uuid,
      proposed_at = ${timestampOf(proposal.at)}::timestamptz, decision_reason = NULL,
      authors = CASE WHEN ${proposal.by}::uuid = ANY (authors) THEN authors ELSE array_append(authors, ${proposal.by}::uuid) END
    WHERE facility_id = ${facilityId}::uuid AND id = ${proposal.id}::uuid AND revision = ${proposal.revision}::int AND state = 'draft'`;
  return changed === 1;
}

/** From one state to another; false when it was in that state no more. */
export async function moveDraft(
  tx: Tx,
  facilityId: string,
  move: {
    readonly id: string;
    readonly from: DraftState;
    readonly to: DraftState;
    readonly by: string;
    readonly at: Instant;
    readonly reason: string | null;
    readonly procedureId: string | null;
  },
): Promise<boolean> {
  const changed = await tx.$executeRaw`
    UPDATE procedure_draft SET state = ${move.to}, decided_by = ${move.by}::uuid, decided_at = ${timestampOf(move.at)}::timestamptz,
      decision_reason = ${move.reason}, procedure_id = ${move.procedureId}::uuid
    WHERE facility_id = ${facilityId}::uuid AND id = ${move.id}::uuid AND state = ${move.from}`;
  return changed === 1;
}
