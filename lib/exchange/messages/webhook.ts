import { webhookSecret, webhookSignature } from "@/lib/auth/server-secrets";
import { type MessagePort, NotSent, type Outgoing } from "@/lib/domain/outgoing";
import { post } from "./post";

export interface WebSettings {
  readonly serverSecret: string;
  /** Hosts inside the hospital that may be sent to, with the port where it is not the usual one. */
  readonly inside: readonly string[];
}

/** A POST of the message as JSON, signed with the channel's own secret. */
export const webhookPort = ({ serverSecret, inside }: WebSettings): MessagePort => ({
  send: async (message) => {
    const url = new URL(message.address.to ?? "");
    const body = JSON.stringify(payloadOf(message));
    const at = String(Math.floor(Date.parse(message.sentAt) / 1000));
    const signature = webhookSignature(webhookSecret(serverSecret, message.channelId), at, body);
    const headers = {
      "content-type": "application/json",
      "content-length": Buffer.byteLength(body),
      "x-yokeboard-delivery": message.id,
      "x-yokeboard-time": at,
      "x-yokeboard-signature": `sha256=${signature}`,
    };
    const status = await post({ url, headers, body }, inside);
    if (status < 200 || status > 299) throw new NotSent(`${url.host} answered ${status}`, isFinal(status));
  },
});

const payloadOf = ({ id, facility, kind, title, body, link, at }: Outgoing) => ({
  id,
  facility,
  kind,
  title,
  body,
  link,
  at,
});

/** A refusal by the other side; too busy and too slow are not. A redirect would be another address than the one that was given. */
const isFinal = (status: number): boolean => status < 500 && status !== 408 && status !== 425 && status !== 429;
