import webpush from "web-push";
import { pushKeys } from "@/lib/auth/server-secrets";
import { type MessagePort, NotSent } from "@/lib/domain/outgoing";
import { post } from "./post";
import type { WebSettings } from "./webhook";

const SECONDS_TO_LIVE = 1_800;

interface PushSettings extends WebSettings {
  /** Whom a push service may write to about this server (RFC 8292): an https or mailto address. */
  readonly contact: string;
}

/** A message to a device by its push service, encrypted for the device alone (RFC 8291). */
export const pushPort = ({ serverSecret, contact, inside }: PushSettings): MessagePort => ({
  send: async ({ id, title, body, link, address }) => {
    const subscription = {
      endpoint: address.to ?? "",
      keys: { p256dh: address.p256dh ?? "", auth: address.auth ?? "" },
    };
    const details = webpush.generateRequestDetails(subscription, JSON.stringify({ id, title, body, link }), {
      vapidDetails: { subject: contact, ...pushKeys(serverSecret) },
      TTL: SECONDS_TO_LIVE,
      urgency: "high",
    });
    const url = new URL(details.endpoint);
    const headers = details.headers as Record<string, string | number>;
    const status = await post({ url, headers, body: details.body ?? Buffer.alloc(0) }, inside);
    if (status === 404 || status === 410)
      throw new NotSent("the device takes no more messages: remove it and add it again", true);
    if (status < 200 || status > 299)
      throw new NotSent(`the push service answered ${status}`, status < 500 && status !== 429);
  },
});
