import { z } from "zod";
import { id, timeOfDay, timestamp, words } from "@/lib/schemas/common";
import { taskKey } from "@/lib/schemas/task";

export const escalateTaskRequest = z.strictObject({ key: taskKey, personId: id, reason: words(300) });
export const escalateTaskReply = z.strictObject({ escalationId: id, name: z.string(), answerBy: timestamp });
export const answerEscalationRequest = z.strictObject({ escalationId: id });
export const answerEscalationReply = z.strictObject({ escalationId: id, answeredAt: timestamp });
export const passOnEscalationRequest = z.strictObject({ escalationId: id, personId: id, note: words(300).optional() });
export const passOnEscalationReply = escalateTaskReply;

const base64url = (bytes: string) =>
  z
    .string()
    .max(200)
    .regex(/^[A-Za-z0-9_-]+=*$/, `must be the browser's ${bytes}, in base64url`);
const address = z
  .url({ protocol: /^https?$/, error: "must be an address such as https://pager.example.org/in" })
  .max(500);

/** A way to reach oneself. Whether an address answers is seen by a test message. */
export const addChannelRequest = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("mail"),
    to: z.email("must be a mail address such as n.halabi@hospital.example").max(200),
  }),
  z.strictObject({ kind: z.literal("webhook"), to: address }),
  z.strictObject({
    kind: z.literal("push"),
    to: address,
    p256dh: base64url("public key"),
    auth: base64url("secret"),
    label: words(60),
  }),
]);
export const addChannelReply = z.strictObject({ channelId: id });
export const channelRequest = z.strictObject({ channelId: id });
export const removeChannelReply = z.strictObject({ channelId: id, endedAt: timestamp });
export const testChannelReply = z.strictObject({ channelId: id, messageId: id });
export const chooseSummariesRequest = z.strictObject({
  /** By the facility's clock; null for none. */
  morning: timeOfDay.nullable(),
  week: timeOfDay.nullable(),
});
export const chooseSummariesReply = chooseSummariesRequest;

export const CHANNEL_KINDS = ["push", "webhook", "mail"] as const;

export const escalationView = z.strictObject({
  id,
  taskKey,
  reason: z.string(),
  /** Who asked; null when the clock did. */
  by: z.string().nullable(),
  at: timestamp,
  answerBy: timestamp,
  answeredAt: timestamp.nullable(),
  outcome: z.enum(["passed-on", "unanswered", "over"]).nullable(),
});
export type EscalationView = z.infer<typeof escalationView>;

export const channelView = z.strictObject({
  id,
  kind: z.enum(CHANNEL_KINDS),
  label: z.string(),
  addedAt: timestamp,
  /** What became of the last message by this way. */
  last: z
    .strictObject({ at: timestamp, sentAt: timestamp.nullable(), attempts: z.int(), problem: z.string().nullable() })
    .nullable(),
  /** Signs what is sent to a webhook; its owner alone reads it. */
  secret: z.string().nullable(),
});

export const messagesView = z.strictObject({
  /** Open ones first, then the last few that are over. */
  escalations: z.array(escalationView),
  channels: z.array(channelView),
  summaries: chooseSummariesRequest,
  /** Whether this server can send mail at all. */
  mail: z.boolean(),
  /** By which this server is known to push services; null where it has no secret to make one from. */
  pushKey: z.string().nullable(),
  /** Who else could be asked. */
  people: z.array(z.strictObject({ id, name: z.string(), onDuty: z.boolean() })),
  at: timestamp,
});
export type MessagesView = z.infer<typeof messagesView>;
