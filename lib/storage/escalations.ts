import type { AskedPerson } from "@/lib/domain/escalation/model";
import type { Tx } from "@/lib/storage/client";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";

export interface EscalationRecord extends AskedPerson {
  readonly name: string;
  readonly byName: string | null;
  readonly reason: string;
  readonly answeredAt: Instant | null;
}

interface Row {
  id: string;
  taskKey: string;
  personId: string;
  name: string;
  byName: string | null;
  reason: string;
  at: Date;
  answerBy: Date;
  answeredAt: Date | null;
  outcome: EscalationRecord["outcome"];
}

const recordOf = ({ at, answerBy, answeredAt, ...row }: Row): EscalationRecord => ({
  ...row,
  at: at.getTime() as Instant,
  answerBy: answerBy.getTime() as Instant,
  answeredAt: answeredAt && (answeredAt.getTime() as Instant),
  answered: answeredAt !== null,
});

/** Who was asked about the tasks that are open now, since each was opened; the newest first. */
export async function escalationsOfOpenTasks(tx: Tx, facilityId: string): Promise<EscalationRecord[]> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT e.id, e.task_key AS "taskKey", e.person_id AS "personId", p.name, b.name AS "byName", e.reason, e.at,
      e.answer_by AS "answerBy", e.answered_at AS "answeredAt", e.outcome
    FROM fact.escalation e JOIN person p ON p.id = e.person_id LEFT JOIN person b ON b.id = e.by_person
    LEFT JOIN derived.task t ON t.facility_id = e.facility_id AND t.key = e.task_key AND t.closed_at IS NULL
    WHERE e.facility_id = ${facilityId}::uuid AND (e.at >= t.opened_at OR e.ended_at IS NULL)
    ORDER BY e.at DESC, e.id`;
  return rows.map(recordOf);
}

/** What one person was asked: what is open, and the last few that are over. */
export async function escalationsTo(
  tx: Tx,
  facilityId: string,
  personId: string,
  most: number,
): Promise<EscalationRecord[]> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT e.id, e.task_key AS "taskKey", e.person_id AS "personId", p.name, b.name AS "byName", e.reason, e.at,
      e.answer_by AS "answerBy", e.answered_at AS "answeredAt", e.outcome
    FROM fact.escalation e JOIN person p ON p.id = e.person_id LEFT JOIN person b ON b.id = e.by_person
    WHERE e.facility_id = ${facilityId}::uuid AND e.person_id = ${personId}::uuid
    ORDER BY (e.ended_at IS NULL) DESC, e.at DESC, e.id LIMIT ${most}`;
  return rows.map(recordOf);
}

export async function escalationById(tx: Tx, facilityId: string, id: string): Promise<EscalationRecord | null> {
  const rows = await tx.$queryRaw<Row[]>`
    SELECT e.id, e.task_key AS "taskKey", e.person_id AS "personId", p.name, b.name AS "byName", e.reason, e.at,
      e.answer_by AS "answerBy", e.answered_at AS "answeredAt", e.outcome
    FROM fact.escalation e JOIN person p ON p.id = e.person_id LEFT JOIN person b ON b.id = e.by_person
    WHERE e.facility_id = ${facilityId}::uuid AND e.id = ${id}::uuid FOR UPDATE OF e`;
  return rows[0] ? recordOf(rows[0]) : null;
}

export interface NewEscalation {
  readonly id: string;
  readonly taskKey: string;
  readonly personId: string;
  readonly by: string | null;
  readonly reason: string;
  readonly at: Instant;
  readonly answerBy: Instant;
}

/** False when somebody is asked about this task already. */
export async function insertEscalation(tx: Tx, facilityId: string, one: NewEscalation): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO fact.escalation (facility_id, id, task_key, person_id, by_person, reason, at, answer_by)
    VALUES (${facilityId}::uuid, ${one.id}::uuid, ${one.taskKey}, ${one.personId}::uuid, ${one.by}::uuid, ${one.reason},
      ${timestampOf(one.at)}::timestamptz, ${timestampOf(one.answerBy)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

export async function answerEscalation(tx: Tx, facilityId: string, id: string, at: Instant): Promise<void> {
  await tx.$executeRaw`
    UPDATE fact.escalation SET answered_at = ${timestampOf(at)}::timestamptz WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid`;
}

/** False when it was over already. */
export async function endEscalation(
  tx: Tx,
  facilityId: string,
  id: string,
  outcome: NonNullable<EscalationRecord["outcome"]>,
  at: Instant,
): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE fact.escalation SET ended_at = greatest(${timestampOf(at)}::timestamptz, at), outcome = ${outcome}
    WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND ended_at IS NULL`;
  return ended === 1;
}

export const saidAt = (at: Instant | null): Timestamp | null => (at === null ? null : timestampOf(at));
