import type { Tx } from "@/lib/storage/client";
import { type Instant, timestampOf } from "@/lib/units/time";

export type ChannelKind = "push" | "webhook" | "mail";

export interface ChannelRecord {
  readonly id: string;
  readonly personId: string;
  readonly kind: ChannelKind;
  readonly label: string;
  readonly addedAt: string;
  readonly last: {
    readonly at: string;
    readonly sentAt: string | null;
    readonly attempts: number;
    readonly problem: string | null;
  } | null;
}

/** Somebody's ways, with what became of the last message by each. */
export async function channelsOf(tx: Tx, facilityId: string, personId: string): Promise<ChannelRecord[]> {
  const [row] = await tx.$queryRaw<{ rows: ChannelRecord[] }[]>`
    SELECT coalesce(json_agg(x ORDER BY x."addedAt", x.id), '[]') AS rows FROM (
      SELECT c.id, c.person_id AS "personId", c.kind, c.label,
        to_char(c.added_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "addedAt",
        (SELECT json_build_object('at', to_char(m.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'),
            'sentAt', to_char(d.sent_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), 'attempts', d.attempts, 'problem', d.problem)
         FROM fact.delivery d JOIN fact.message m ON m.facility_id = d.facility_id AND m.id = d.message_id
         WHERE d.facility_id = c.facility_id AND d.channel_id = c.id ORDER BY m.at DESC, m.id LIMIT 1) AS last
      FROM channel c WHERE c.facility_id = ${facilityId}::uuid AND c.person_id = ${personId}::uuid AND c.ended_at IS NULL) x`;
  return row?.rows ?? [];
}

export interface NewChannel {
  readonly id: string;
  readonly personId: string;
  readonly kind: ChannelKind;
  readonly address: Readonly<Record<string, string>>;
  readonly label: string;
  readonly at: Instant;
}

/** False when this address is one of that person's ways already. */
export async function insertChannel(tx: Tx, facilityId: string, channel: NewChannel): Promise<boolean> {
  const inserted = await tx.$executeRaw`
    INSERT INTO channel (facility_id, id, person_id, kind, address, label, added_at)
    VALUES (${facilityId}::uuid, ${channel.id}::uuid, ${channel.personId}::uuid, ${channel.kind}, ${JSON.stringify(channel.address)}::jsonb,
      ${channel.label}, ${timestampOf(channel.at)}::timestamptz)
    ON CONFLICT DO NOTHING`;
  return inserted === 1;
}

/** Ends a way, and what still waits to go by it. */
export async function endChannel(tx: Tx, facilityId: string, id: string, at: Instant): Promise<boolean> {
  const ended = await tx.$executeRaw`
    UPDATE channel SET ended_at = ${timestampOf(at)}::timestamptz WHERE facility_id = ${facilityId}::uuid AND id = ${id}::uuid AND ended_at IS NULL`;
  await tx.$executeRaw`
    UPDATE fact.delivery SET next_at = NULL, problem = 'this way was removed'
    WHERE facility_id = ${facilityId}::uuid AND channel_id = ${id}::uuid AND next_at IS NOT NULL`;
  return ended === 1;
}

export interface SummaryChoices {
  readonly morning: string | null;
  readonly week: string | null;
}

export async function summariesOf(tx: Tx, facilityId: string, personId: string): Promise<SummaryChoices> {
  const rows = await tx.summaryChoice.findMany({ where: { facilityId, personId } });
  const at = (kind: string) => rows.find((row) => row.kind === kind)?.at ?? null;
  return { morning: at("morning"), week: at("week") };
}

export async function replaceSummaries(
  tx: Tx,
  facilityId: string,
  personId: string,
  choices: SummaryChoices,
): Promise<void> {
  await tx.summaryChoice.deleteMany({ where: { facilityId, personId } });
  const data = (["morning", "week"] as const).flatMap((kind) => {
    const at = choices[kind];
    return at === null ? [] : [{ facilityId, personId, kind, at }];
  });
  if (data.length > 0) await tx.summaryChoice.createMany({ data });
}

/** Who wants which summary when, of those who still work here and have a mail address. */
export async function summariesWanted(
  tx: Tx,
  facilityId: string,
): Promise<{ readonly personId: string; readonly kind: "morning" | "week"; readonly at: string }[]> {
  return tx.$queryRaw`
    SELECT s.person_id AS "personId", s.kind, s.at FROM summary_choice s JOIN person p ON p.id = s.person_id AND p.active
    WHERE s.facility_id = ${facilityId}::uuid
      AND EXISTS (SELECT FROM person_role r WHERE r.facility_id = s.facility_id AND r.person_id = s.person_id)
      AND EXISTS (SELECT FROM channel c WHERE c.facility_id = s.facility_id AND c.person_id = s.person_id AND c.kind = 'mail' AND c.ended_at IS NULL)
    ORDER BY s.person_id, s.kind`;
}

/** Everybody with a role here, and whether any way but the screen reaches them. */
export async function reachablePeople(
  tx: Tx,
  facilityId: string,
): Promise<{ readonly id: string; readonly name: string; readonly roles: string[]; readonly hasChannel: boolean }[]> {
  return tx.$queryRaw`
    SELECT p.id, p.name, array_agg(r.role ORDER BY r.role) AS roles,
      EXISTS (SELECT FROM channel c WHERE c.facility_id = r.facility_id AND c.person_id = p.id AND c.ended_at IS NULL) AS "hasChannel"
    FROM person_role r JOIN person p ON p.id = r.person_id AND p.active
    WHERE r.facility_id = ${facilityId}::uuid GROUP BY p.id, p.name, r.facility_id ORDER BY p.name, p.id`;
}
