import type { Answer } from "@/lib/domain/answer";
import type { CheckState } from "@/lib/domain/check/model";
import type { Known, Verdict } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { CheckKind, Meaning, Role } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { takeBackFailing } from "@/lib/storage/latest-observations";
import { type Instant, instantOf, timestampOf } from "@/lib/units/time";

export interface NewCheck {
  readonly id: string;
  readonly procedureId: string | null;
  readonly kind: CheckKind;
  readonly workstationId: string;
  readonly roomId: string | null;
  readonly startedAt: Instant;
  readonly startedBy: string;
  readonly taskKey: string | null;
  /** Without the steps that the same user need not repeat. */
  readonly shortened?: boolean;
}

export async function insertCheck(tx: Tx, facilityId: string, check: NewCheck): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.check_run (facility_id, id, procedure_id, kind, workstation_id, room_id, started_at, started_by, task_key, shortened)
    VALUES (${facilityId}::uuid, ${check.id}::uuid, ${check.procedureId}::uuid, ${check.kind}, ${check.workstationId}::uuid,
      ${check.roomId}::uuid, ${timestampOf(check.startedAt)}::timestamptz, ${check.startedBy}::uuid, ${check.taskKey}, ${check.shortened ?? false})`;
}

/** One answer as it is stored. Exactly one of workstation and room keeps it (the item says which). */
export interface NewObservation {
  readonly id: string;
  readonly checkId: string | null;
  readonly item: ItemId;
  readonly subject: Subject;
  readonly workstationId: string | null;
  readonly roomId: string | null;
  readonly answer: Answer;
  readonly verdict: Verdict;
  readonly observedAt: Instant;
  readonly known: Known;
  readonly by: string;
  readonly role: Role;
  readonly recordedAt: Instant;
  /** Who entered it, where that is not who saw it: from paper, or from somebody else's phone. */
  readonly recordedBy?: string;
  readonly supersedes: string | null;
}

/** All answers in one statement; a failing one becomes the newest failing at once (a passing one when its check is signed). */
export async function insertObservations(
  tx: Tx,
  facilityId: string,
  observations: readonly NewObservation[],
): Promise<void> {
  const rows = observations.map(({ subject, observedAt, recordedAt, ...rest }) => ({
    ...rest,
    subjectKind: subject.kind,
    subjectId: subject.id,
    observedAt: timestampOf(observedAt),
    recordedAt: timestampOf(recordedAt),
  }));
  await tx.$executeRaw`
    WITH input AS (
      SELECT * FROM jsonb_to_recordset(${JSON.stringify(rows)}::jsonb) AS i(id uuid, "checkId" uuid, item text, "subjectKind" text, "subjectId" text,
        "workstationId" uuid, "roomId" uuid, answer jsonb, verdict text, "observedAt" timestamptz, known jsonb, by uuid, role text, "recordedAt" timestamptz, "recordedBy" uuid, supersedes uuid)),
    failing AS (
      INSERT INTO derived.latest_observation AS l (facility_id, keeper_id, item, subject_id, verdict, observation_id, observed_at)
      SELECT DISTINCT ON (coalesce("workstationId", "roomId"), item, "subjectId")
        ${facilityId}::uuid, coalesce("workstationId", "roomId"), item, "subjectId", 'fail', id, "observedAt"
      FROM input WHERE verdict = 'fail' ORDER BY coalesce("workstationId", "roomId"), item, "subjectId", "observedAt" DESC
      ON CONFLICT (facility_id, keeper_id, item, subject_id, verdict)
      DO UPDATE SET observation_id = excluded.observation_id, observed_at = excluded.observed_at WHERE l.observed_at <= excluded.observed_at)
    INSERT INTO fact.observation (facility_id, id, check_id, item, subject_kind, subject_id, workstation_id, room_id, answer, verdict,
      observed_at, known, observed_by, observed_role, recorded_at, recorded_by, supersedes)
    SELECT ${facilityId}::uuid, id, "checkId", item, "subjectKind", "subjectId", "workstationId", "roomId", answer, verdict,
      "observedAt", known, by, role, "recordedAt", coalesce("recordedBy", by), supersedes FROM input`;
  const superseded = observations.flatMap(({ supersedes }) => (supersedes === null ? [] : [supersedes]));
  if (superseded.length > 0) await takeBackFailing(tx, facilityId, superseded);
}

export interface NewSignature {
  readonly id: string;
  readonly checkId: string;
  readonly personId: string;
  readonly role: Role;
  readonly meaning: Meaning;
  readonly at: Instant;
  /** SHA-256 of exactly what was shown. */
  readonly boundTo: string;
}

/**
 * Signs. False when the check already carries that meaning: of two people at once, one wins and the other is told.
 * A performed signature makes the check's passing answers count.
 */
export async function insertSignature(tx: Tx, facilityId: string, signature: NewSignature): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.signature (facility_id, id, check_id, person_id, role, meaning, at, bound_to)
    VALUES (${facilityId}::uuid, ${signature.id}::uuid, ${signature.checkId}::uuid, ${signature.personId}::uuid, ${signature.role},
      ${signature.meaning}, ${timestampOf(signature.at)}::timestamptz, ${signature.boundTo})
    ON CONFLICT (facility_id, check_id, meaning) DO NOTHING`;
  if (inserted === 1 && signature.meaning === "performed") await countPassing(tx, facilityId, signature.checkId);
  return inserted === 1;
}

async function countPassing(tx: Tx, facilityId: string, checkId: string): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO derived.latest_observation AS l (facility_id, keeper_id, item, subject_id, verdict, observation_id, observed_at)
    SELECT DISTINCT ON (coalesce(o.workstation_id, o.room_id), o.item, o.subject_id)
      o.facility_id, coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, 'pass', o.id, o.observed_at
    FROM fact.observation o WHERE o.facility_id = ${facilityId}::uuid AND o.check_id = ${checkId}::uuid AND o.verdict = 'pass'
    ORDER BY coalesce(o.workstation_id, o.room_id), o.item, o.subject_id, o.observed_at DESC, o.recorded_at DESC
    ON CONFLICT (facility_id, keeper_id, item, subject_id, verdict)
    DO UPDATE SET observation_id = excluded.observation_id, observed_at = excluded.observed_at WHERE l.observed_at <= excluded.observed_at`;
}

/** A check with what it was done by. */
export interface CheckRecord extends CheckState {
  readonly procedureId: string | null;
  /** Begun without the steps that the same user need not repeat. */
  readonly shortened?: boolean;
}

interface CheckJson {
  id: string;
  kind: CheckKind;
  procedure_id: string | null;
  workstation_id: string;
  room_id: string | null;
  started_at: string;
  started_by: string;
  answers: {
    id: string;
    item: ItemId;
    subject_kind: Subject["kind"];
    subject_id: string;
    answer: Answer;
    verdict: Verdict;
    observed_at: string;
    observed_by: string;
  }[];
  signatures: { person_id: string; role: Role; meaning: Meaning; at: string }[];
  corrected: boolean;
  shortened: boolean;
}

/** One check with its answers in the order given, and its signatures; null when the facility has no such check. */
export async function findCheck(tx: Tx, facilityId: string, checkId: string): Promise<CheckRecord | null> {
  const [found] = await tx.$queryRaw<{ check: CheckJson }[]>`
    SELECT to_jsonb(c) || jsonb_build_object(
      'answers', (SELECT coalesce(jsonb_agg(jsonb_build_object('id', o.id, 'item', o.item, 'subject_kind', o.subject_kind, 'subject_id', o.subject_id,
          'answer', o.answer, 'verdict', o.verdict, 'observed_at', o.observed_at, 'observed_by', o.observed_by) ORDER BY o.observed_at, o.recorded_at, o.id), '[]')
        FROM fact.observation o WHERE o.facility_id = c.facility_id AND o.check_id = c.id),
      'corrected', EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = c.facility_id AND k.check_id = c.id),
      'signatures', (SELECT coalesce(jsonb_agg(to_jsonb(s) ORDER BY s.at), '[]') FROM fact.signature s WHERE s.facility_id = c.facility_id AND s.check_id = c.id)) AS check
    FROM fact.check_run c WHERE c.facility_id = ${facilityId}::uuid AND c.id = ${checkId}::uuid`;
  return found ? checkRecordOf(found.check) : null;
}

function checkRecordOf(row: CheckJson): CheckRecord {
  return {
    id: row.id,
    kind: row.kind,
    procedureId: row.procedure_id,
    workstationId: row.workstation_id,
    roomId: row.room_id,
    startedAt: instantOf(row.started_at),
    startedBy: row.started_by,
    answers: row.answers.map(({ id, item, subject_kind, subject_id, answer, verdict, observed_at, observed_by }) => ({
      id,
      item,
      subject: { kind: subject_kind, id: subject_id },
      answer,
      verdict,
      observedAt: instantOf(observed_at),
      by: observed_by,
    })),
    signatures: row.signatures.map(({ person_id, role, meaning, at }) => ({
      personId: person_id,
      role,
      meaning,
      at: instantOf(at),
    })),
    corrected: row.corrected,
    shortened: row.shortened,
  };
}

/** The unsigned checks of one kind and workstation that a person goes on with, their own or taken over, newest first. */
export async function openChecks(
  tx: Tx,
  facilityId: string,
  workstationId: string,
  personId: string,
  kind: CheckKind,
  since: Instant,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT c.id FROM fact.check_run c
    WHERE c.facility_id = ${facilityId}::uuid AND c.workstation_id = ${workstationId}::uuid 
      AND coalesce((SELECT k.person_id FROM fact.check_takeover k WHERE k.facility_id = c.facility_id AND k.check_id = c.id ORDER BY k.at DESC, k.id LIMIT 1), c.started_by) = ${personId}::uuid
      AND NOT EXISTS (SELECT FROM fact.check_correction k WHERE k.facility_id = c.facility_id AND k.check_id = c.id)
      AND c.started_at >= ${timestampOf(since)}::timestamptz AND c.kind = ${kind}
      AND NOT EXISTS (SELECT FROM fact.signature s WHERE s.facility_id = c.facility_id AND s.check_id = c.id AND s.meaning = 'performed')
    ORDER BY c.started_at DESC`;
  return rows.map(({ id }) => id);
}

/** What somebody has typed into a check and not yet recorded. */
export async function findDraft(
  tx: Tx,
  facilityId: string,
  checkId: string,
  personId: string,
): Promise<Record<string, unknown>> {
  const [row] = await tx.$queryRaw<{ answers: Record<string, unknown> }[]>`
    SELECT answers FROM check_draft WHERE facility_id = ${facilityId}::uuid AND check_id = ${checkId}::uuid AND person_id = ${personId}::uuid`;
  return row?.answers ?? {};
}

export async function storeDraft(
  tx: Tx,
  facilityId: string,
  draft: {
    readonly checkId: string;
    readonly personId: string;
    readonly answers: Readonly<Record<string, unknown>>;
    readonly at: Instant;
  },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO check_draft (facility_id, check_id, person_id, answers, updated_at)
    VALUES (${facilityId}::uuid, ${draft.checkId}::uuid, ${draft.personId}::uuid, ${JSON.stringify(draft.answers)}::jsonb, ${timestampOf(draft.at)}::timestamptz)
    ON CONFLICT (facility_id, check_id, person_id) DO UPDATE SET answers = excluded.answers, updated_at = excluded.updated_at`;
}

export async function dropDraft(tx: Tx, facilityId: string, checkId: string): Promise<void> {
  await tx.$executeRaw`DELETE FROM check_draft WHERE facility_id = ${facilityId}::uuid AND check_id = ${checkId}::uuid`;
}
