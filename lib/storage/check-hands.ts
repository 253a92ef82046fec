import type { Verdict } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { CheckKind } from "@/lib/domain/vocabulary";
import type { Tx } from "@/lib/storage/client";
import { dropCorrected } from "@/lib/storage/latest-observations";
import { type Instant, instantOf, type Timestamp, timestampOf } from "@/lib/units/time";

/** Checks that change hands, that turn out to be of another workstation, and self-tests that run in them. */

/** Two within one millisecond keep their order, since the last one is who goes on with it. */
export async function insertTakeover(
  tx: Tx,
  facilityId: string,
  takeover: {
    readonly id: string;
    readonly checkId: string;
    readonly from: string;
    readonly personId: string;
    readonly reason: string;
    readonly at: Instant;
  },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.check_takeover (facility_id, id, check_id, from_person, person_id, reason, at)
    SELECT ${facilityId}::uuid, ${takeover.id}::uuid, ${takeover.checkId}::uuid, ${takeover.from}::uuid, ${takeover.personId}::uuid, ${takeover.reason},
      greatest(${timestampOf(takeover.at)}::timestamptz,
        (SELECT max(k.at) + interval '1 millisecond' FROM fact.check_takeover k WHERE k.facility_id = ${facilityId}::uuid AND k.check_id = ${takeover.checkId}::uuid))`;
}

export async function insertSelfTestStart(
  tx: Tx,
  facilityId: string,
  start: { readonly id: string; readonly checkId: string; readonly by: string; readonly at: Instant },
): Promise<void> {
  await tx.$executeRaw`
    INSERT INTO fact.self_test_start (facility_id, id, check_id, by, at)
    VALUES (${facilityId}::uuid, ${start.id}::uuid, ${start.checkId}::uuid, ${start.by}::uuid, ${timestampOf(start.at)}::timestamptz)`;
}

export interface CarriedRow {
  readonly id: string;
  /** The observation it says again, about the right workstation. */
  readonly of: string;
  readonly item: ItemId;
  readonly subject: Subject;
  readonly workstationId: string | null;
  readonly roomId: string | null;
  readonly verdict: Verdict;
}

/**
 * Records answers again on the right workstation: what was seen, when and by whom stays; where, and who recorded it, is new. False when somebody
 * corrected the same check in the meantime.
 */
export async function insertCorrection(
  tx: Tx,
  facilityId: string,
  correction: {
    readonly id: string;
    readonly checkId: string;
    readonly rightCheckId: string;
    readonly reason: string;
    readonly by: string;
    readonly at: Instant;
    readonly rows: readonly CarriedRow[];
  },
): Promise<boolean> {
  const { checkId, rightCheckId, by, rows } = correction;
  const at = timestampOf(correction.at);
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.check_correction (facility_id, id, check_id, right_check_id, reason, by, at)
    VALUES (${facilityId}::uuid, ${correction.id}::uuid, ${checkId}::uuid, ${rightCheckId}::uuid, ${correction.reason}, ${by}::uuid, ${at}::timestamptz)
    ON CONFLICT DO NOTHING`;
  if (inserted !== 1) return false;
  const given = rows.map(({ subject, ...row }) => ({ ...row, subjectKind: subject.kind, subjectId: subject.id }));
  await tx.$executeRaw`
    WITH made AS (
      INSERT INTO fact.observation (facility_id, id, check_id, item, subject_kind, subject_id, workstation_id, room_id, answer, verdict,
        makers_verdict, observed_at, known, observed_by, observed_role, recorded_at, recorded_by, supersedes)
      SELECT o.facility_id, i.id, ${rightCheckId}::uuid, i.item, i."subjectKind", i."subjectId", i."workstationId", i."roomId", o.answer, i.verdict,
        o.makers_verdict, o.observed_at, o.known, o.observed_by, o.observed_role, ${at}::timestamptz, ${by}::uuid, o.id
      FROM jsonb_to_recordset(${JSON.stringify(given)}::jsonb) AS i(id uuid, "of" uuid, item text, "subjectKind" text, "subjectId" text,
        "workstationId" uuid, "roomId" uuid, verdict text)
      JOIN fact.observation o ON o.facility_id = ${facilityId}::uuid AND o.id = i."of"
      RETURNING id, workstation_id, room_id, item, subject_id, verdict, observed_at)
    INSERT INTO derived.latest_observation AS l (facility_id, keeper_id, item, subject_id, verdict, observation_id, observed_at)
    SELECT ${facilityId}::uuid, coalesce(workstation_id, room_id), item, subject_id, 'fail', id, observed_at FROM made WHERE verdict = 'fail'
    ON CONFLICT (facility_id, keeper_id, item, subject_id, verdict)
    DO UPDATE SET observation_id = excluded.observation_id, observed_at = excluded.observed_at WHERE l.observed_at <= excluded.observed_at`;
  await dropCorrected(tx, facilityId, checkId);
  return true;
}

/** Who goes on with a check, from whom, and since when the self-test runs in it. */
export interface CheckHands {
  readonly heldBy: string;
  readonly takenOverFrom: string | null;
  readonly selfTestSince: Instant | null;
}

export async function checkHands(tx: Tx, facilityId: string, checkId: string): Promise<CheckHands | null> {
  const [row] = await tx.$queryRaw<
    { hands: { heldBy: string; takenOverFrom: string | null; selfTestSince: string | null } }[]
  >`
    SELECT json_build_object(
      'heldBy', coalesce(k.person_id, c.started_by), 'takenOverFrom', k.from_person,
      'selfTestSince', (SELECT max(s.at) FROM fact.self_test_start s WHERE s.facility_id = c.facility_id AND s.check_id = c.id
        AND NOT EXISTS (SELECT FROM fact.observation o WHERE o.facility_id = c.facility_id AND o.check_id = c.id AND o.item = 'self-test' AND o.recorded_at >= s.at))
    ) AS hands
    FROM fact.check_run c
    LEFT JOIN LATERAL (SELECT t.person_id, t.from_person FROM fact.check_takeover t
      WHERE t.facility_id = c.facility_id AND t.check_id = c.id ORDER BY t.at DESC, t.id LIMIT 1) k ON true
    WHERE c.facility_id = ${facilityId}::uuid AND c.id = ${checkId}::uuid`;
  if (!row) return null;
  const { selfTestSince, ...hands } = row.hands;
  return { ...hands, selfTestSince: selfTestSince === null ? null : instantOf(selfTestSince) };
}

export interface OpenCheckRecord {
  readonly checkId: string;
  readonly kind: CheckKind;
  readonly room: { readonly id: string; readonly name: string } | null;
  readonly workstation: { readonly id: string; readonly tag: string };
  readonly startedAt: Timestamp;
  readonly startedBy: string;
  readonly heldById: string;
  readonly heldBy: string;
  readonly takenOverFrom: string | null;
  readonly answered: number;
  readonly asked: number;
  readonly selfTestSince: Timestamp | null;
}

/** The full checks of a check day that nobody has signed yet, oldest first; of some workstations, or of all. */
export async function openCheckRecords(
  tx: Tx,
  facilityId: string,
  since: Instant,
  workstations: readonly string[] | null = null,
): Promise<OpenCheckRecord[]> {
  type Row = Omit<OpenCheckRecord, "startedAt" | "selfTestSince"> & { startedAt: string; selfTestSince: string | null };
  const only = workstations === null ? null : [...workstations];
  const [found] = await tx.$queryRaw<{ rows: Row[] }[]>`
    SELECT coalesce(json_agg(x ORDER BY x."startedAt", x."checkId"), '[]') AS rows FROM (
      SELECT c.id AS "checkId", c.kind, c.started_at AS "startedAt", b.name AS "startedBy", coalesce(k.person_id, c.started_by) AS "heldById",
        coalesce(k.name, b.name) AS "heldBy", k.from_name AS "takenOverFrom",
        CASE WHEN r.id IS NULL THEN NULL ELSE json_build_object('id', r.id, 'name', r.name) END AS room,
        json_build_object('id', w.id, 'tag', w.tag) AS workstation,
        (SELECT count(DISTINCT (o.item, o.subject_id))::int FROM fact.observation o WHERE o.facility_id = c.facility_id AND o.check_id = c.id) AS answered,
        0 AS asked,
        (SELECT max(s.at) FROM fact.self_test_start s WHERE s.facility_id = c.facility_id AND s.check_id = c.id
          AND NOT EXISTS (SELECT FROM fact.observation o WHERE o.facility_id = c.facility_id AND o.check_id = c.id AND o.item = 'self-test' AND o.recorded_at >= s.at)) AS "selfTestSince"
      FROM fact.check_run c JOIN workstation w ON w.facility_id = c.facility_id AND w.id = c.workstation_id JOIN person b ON b.id = c.started_by
      LEFT JOIN room r ON r.facility_id = c.facility_id AND r.id = c.room_id
      LEFT JOIN LATERAL (SELECT t.person_id, p.name, q.name AS from_name FROM fact.check_takeover t
        JOIN person p ON p.id = t.person_id JOIN person q ON q.id = t.from_person
        WHERE t.facility_id = c.facility_id AND t.check_id = c.id ORDER BY t.at DESC, t.id LIMIT 1) k ON true
      WHERE c.facility_id = ${facilityId}::uuid AND c.kind IN ('daily', 'first-user') AND c.started_at >= ${timestampOf(since)}::timestamptz
        AND (${only}::uuid[] IS NULL OR c.workstation_id = ANY (${only}::uuid[]))
        AND NOT EXISTS (SELECT FROM fact.signature g WHERE g.facility_id = c.facility_id AND g.check_id = c.id AND g.meaning = 'performed')
        AND NOT EXISTS (SELECT FROM fact.check_correction d WHERE d.facility_id = c.facility_id AND d.check_id = c.id)) x`;
  const utc = (text: string) => timestampOf(instantOf(text));
  return (found?.rows ?? []).map((row) => ({
    ...row,
    startedAt: utc(row.startedAt),
    selfTestSince: row.selfTestSince === null ? null : utc(row.selfTestSince),
  }));
}
