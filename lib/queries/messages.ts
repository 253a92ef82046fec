import type { Actor } from "@/lib/auth/actor";
import { pushKeys, webhookSecret } from "@/lib/auth/server-secrets";
import { appReading, inFacility, type Reading } from "@/lib/queries/read";
import { dutyNowIn } from "@/lib/queries/tasks";
import type { EscalationView, MessagesView } from "@/lib/schemas/messages";
import { channelsOf, reachablePeople, summariesOf } from "@/lib/storage/channels";
import { type EscalationRecord, escalationsTo, saidAt } from "@/lib/storage/escalations";
import { timestampOf } from "@/lib/units/time";

const LAST_SHOWN = 20;

/** What the environment gives a server to send by. */
export interface SenderSettings {
  readonly serverSecret: string | null;
  readonly mail: boolean;
}

export const appSender = (env: Readonly<Record<string, string | undefined>> = process.env): SenderSettings => ({
  serverSecret: env.NEXTAUTH_SECRET ?? null,
  mail: Boolean(env.YOKEBOARD_SMTP_URL && env.YOKEBOARD_MAIL_FROM),
});

/** What one person was asked, how they are reached, and who else could be asked. */
export const readMessages = (
  actor: Actor,
  reading: Reading = appReading(),
  { serverSecret, mail }: SenderSettings = appSender(),
): Promise<MessagesView> =>
  inFacility(
    actor,
    async (tx, frame, now) => {
      const { facilityId } = frame.scope;
      const duty = new Set((await dutyNowIn(tx, frame, now)).people.map(({ personId }) => personId));
      const people = await reachablePeople(tx, facilityId);
      return {
        escalations: (await escalationsTo(tx, facilityId, actor.personId, LAST_SHOWN)).map(viewOf),
        channels: (await channelsOf(tx, facilityId, actor.personId)).map(({ personId: _own, ...channel }) => ({
          ...channel,
          last: channel.last && { ...channel.last },
          secret: channel.kind === "webhook" && serverSecret ? webhookSecret(serverSecret, channel.id) : null,
        })),
        summaries: { ...(await summariesOf(tx, facilityId, actor.personId)) },
        mail,
        pushKey: serverSecret === null ? null : pushKeys(serverSecret).publicKey,
        people: people
          .filter(({ id }) => id !== actor.personId)
          .map(({ id, name }) => ({ id, name, onDuty: duty.has(id) }))
          .sort((left, right) => Number(right.onDuty) - Number(left.onDuty)),
        at: timestampOf(now),
      };
    },
    reading,
  );

const viewOf = (record: EscalationRecord): EscalationView => ({
  id: record.id,
  taskKey: record.taskKey,
  reason: record.reason,
  by: record.byName,
  at: timestampOf(record.at),
  answerBy: timestampOf(record.answerBy),
  answeredAt: saidAt(record.answeredAt),
  outcome: record.outcome,
});
