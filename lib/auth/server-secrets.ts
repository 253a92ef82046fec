import { createECDH, createHmac, hkdfSync } from "node:crypto";

/**
 * Keys that follow from the server's own secret, so that there is nothing to keep, back up or leak: whoever has the database has none of
 * them. With another secret they are other keys; webhooks then have to be given the new one, and devices have to be added again.
 */
const derived = (secret: string, purpose: string): Buffer =>
  Buffer.from(hkdfSync("sha256", secret, "yokeboard", purpose, 32));

/** What a webhook checks the signature of its messages with. */
export const webhookSecret = (serverSecret: string, channelId: string): string =>
  derived(serverSecret, `webhook ${channelId}`).toString("base64url");

/** HMAC-SHA-256 (RFC 2104) over time and body, in hexadecimal. */
export const webhookSignature = (secret: string, at: string, body: string): string =>
  createHmac("sha256", secret).update(`${at}.${body}`).digest("hex");

export interface PushKeys {
  readonly publicKey: string;
  readonly privateKey: string;
}

/** The P-256 pair by which push services know this server (RFC 8292), in base64url. */
export function pushKeys(serverSecret: string): PushKeys {
  for (let count = 0; ; count += 1) {
    const pair = createECDH("prime256v1");
    try {
      pair.setPrivateKey(derived(serverSecret, `push ${count}`));
    } catch {
      // Not a number below the curve's order: once in four thousand million secrets.
      continue;
    }
    return { publicKey: pair.getPublicKey("base64url"), privateKey: pair.getPrivateKey("base64url") };
  }
}
