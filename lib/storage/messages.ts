import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export const MESSAGE_KINDS = ["escalation", "summary", "test"] as const;

export interface NewMessage {
  readonly id: string;
  readonly personId: string;
  readonly kind: (typeof MESSAGE_KINDS)[number];
  /** What it is about: a person is told of it once. */
  readonly about: string;
  readonly title: string;
  readonly body: string;
  readonly path: string;
  readonly at: Instant;
}

/**
 * A message with one delivery for each of these ways of its person, or for all they have. False when that person was told of it already:
 * then nothing is written, whoever asks and however often.
 */
export async function insertMessage(
  tx: Tx,
  facilityId: string,
  message: NewMessage,
  ways: { readonly kind?: string; readonly channelId?: string } = {},
): Promise<boolean> {
  const at = timestampOf(message.at);
  const [row] = await tx.$queryRaw<{ made: boolean }[]>`
    WITH made AS (
      INSERT INTO fact.message (facility_id, id, person_id, kind, about, title, body, path, at)
      VALUES (${facilityId}::uuid, ${message.id}::uuid, ${message.personId}::uuid, ${message.kind}, ${message.about}, ${message.title},
        ${message.body}, ${message.path}, ${at}::timestamptz)
      ON CONFLICT DO NOTHING RETURNING id),
    ways AS (
      INSERT INTO fact.delivery (facility_id, id, message_id, channel_id, next_at)
      SELECT c.facility_id, gen_random_uuid(), made.id, c.id, ${at}::timestamptz FROM made, channel c
      WHERE c.facility_id = ${facilityId}::uuid AND c.person_id = ${message.personId}::uuid AND c.ended_at IS NULL
        AND (${ways.kind ?? null}::text IS NULL OR c.kind = ${ways.kind ?? null}::text)
        AND (${ways.channelId ?? null}::uuid IS NULL OR c.id = ${ways.channelId ?? null}::uuid))
    SELECT EXISTS (SELECT FROM made) AS made`;
  return row?.made ?? false;
}

export interface DueDelivery {
  readonly id: string;
  readonly attempts: number;
  readonly channelId: string;
  readonly kind: "push" | "webhook" | "mail";
  readonly address: Readonly<Record<string, string>>;
  readonly title: string;
  readonly body: string;
  readonly path: string;
  readonly messageKind: NewMessage["kind"];
  readonly at: string;
}

/**
 * Takes what is due, so that no other sender takes it too, and counts the attempt. Who dies between sending and saying so lets it be sent
 * again after the lease, by the same id.
 */
export async function takeDue(
  tx: Tx,
  facilityId: string,
  now: Instant,
  until: Instant,
  most: number,
): Promise<DueDelivery[]> {
  return tx.$queryRaw<DueDelivery[]>`
    WITH due AS (
      SELECT d.id FROM fact.delivery d WHERE d.facility_id = ${facilityId}::uuid AND d.next_at <= ${timestampOf(now)}::timestamptz
        -- Somebody who has left is told nothing more.
        AND EXISTS (SELECT FROM channel c JOIN person p ON p.id = c.person_id AND p.active WHERE c.facility_id = d.facility_id AND c.id = d.channel_id)
      ORDER BY d.next_at, d.id LIMIT ${most} FOR UPDATE SKIP LOCKED),
    taken AS (
      UPDATE fact.delivery d SET attempts = d.attempts + 1, next_at = ${timestampOf(until)}::timestamptz
      FROM due WHERE d.facility_id = ${facilityId}::uuid AND d.id = due.id RETURNING d.id, d.attempts, d.message_id, d.channel_id)
    SELECT t.id, t.attempts, c.id AS "channelId", c.kind, c.address, m.title, m.body, m.path, m.kind AS "messageKind",
      to_char(m.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS at
    FROM taken t JOIN fact.message m ON m.facility_id = ${facilityId}::uuid AND m.id = t.message_id
    JOIN channel c ON c.facility_id = ${facilityId}::uuid AND c.id = t.channel_id ORDER BY t.id`;
}

export async function deliverySent(tx: Tx, facilityId: string, id: string, at: Instant): Promise<void> {
  await tx.$executeRaw`
    UPDATE fact.delivery SET sent_at = ${timestampOf(at)}::timestamptz, next_at = NULL, problem = NULL
    WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND sent_at IS NULL`;
}

/** Tried again at `next`; given up where that is null. */
export async function deliveryFailed(
  tx: Tx,
  facilityId: string,
  id: string,
  next: Instant | null,
  problem: string,
): Promise<void> {
  const at = next === null ? null : timestampOf(next);
  await tx.$executeRaw`
    UPDATE fact.delivery SET next_at = ${at}::timestamptz, problem = ${problem.slice(0, 300)}
    WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND sent_at IS NULL`;
}
