import { createDecipheriv, createECDH, hkdfSync } from "node:crypto";
import http, { type IncomingHttpHeaders } from "node:http";
import type { AddressInfo } from "node:net";
import { SMTPServer } from "smtp-server";

export interface Received {
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

export interface WebPeer {
  readonly url: string;
  readonly host: string;
  readonly received: Received[];
  /** What it answers next, in order; the last one for ever. Null: nothing at all. */
  answers: (number | null)[];
  close(): Promise<void>;
}

/** A program that takes posts, as a pager gateway or a push service does. */
export async function webPeer(): Promise<WebPeer> {
  const received: Received[] = [];
  const server = http.createServer((request, response) => {
    const parts: Buffer[] = [];
    request.on("data", (part: Buffer) => parts.push(part));
    request.on("end", () => {
      received.push({ path: request.url ?? "", headers: request.headers, body: Buffer.concat(parts) });
      const [status = 200] = peer.answers;
      if (peer.answers.length > 1) peer.answers.shift();
      if (status !== null) response.writeHead(status, status === 302 ? { location: "/elsewhere" } : {}).end();
    });
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  const peer: WebPeer = {
    url: `http://127.0.0.1:${port}`,
    host: `127.0.0.1:${port}`,
    received,
    answers: [200],
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
  return peer;
}

export interface MailPeer {
  readonly url: string;
  readonly mails: { readonly to: string[]; readonly text: string }[];
  /** Answers to the next recipients: an SMTP status, or nothing to take the mail. */
  refusals: number[];
  close(): Promise<void>;
}

/** A mail server that keeps what it is given. */
export async function mailPeer(): Promise<MailPeer> {
  const peer: { url: string; mails: { to: string[]; text: string }[]; refusals: number[]; close: () => Promise<void> } =
    {
      url: "",
      mails: [],
      refusals: [],
      close: async () => undefined,
    };
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ["STARTTLS"],
    onRcptTo: (_address, _session, callback) => {
      const code = peer.refusals.shift();
      callback(code ? Object.assign(new Error("not now"), { responseCode: code }) : null);
    },
    onData: (stream, session, callback) => {
      const parts: Buffer[] = [];
      stream.on("data", (part: Buffer) => parts.push(part));
      stream.on("end", () => {
        peer.mails.push({
          to: session.envelope.rcptTo.map(({ address }) => address),
          text: Buffer.concat(parts).toString("utf8"),
        });
        callback();
      });
    },
  });
  server.on("error", () => undefined);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  peer.url = `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`;
  peer.close = () => new Promise((resolve) => server.close(() => resolve()));
  return peer;
}

/** A device's half of RFC 8291: its keys, and how it reads what was encrypted for it. */
export function device() {
  const pair = createECDH("prime256v1");
  pair.generateKeys();
  const auth = Buffer.from("0123456789abcdef");
  return {
    p256dh: pair.getPublicKey("base64url"),
    auth: auth.toString("base64url"),
    read: (body: Buffer): unknown => {
      // RFC 8188: salt, record size, key id (the sender's public key), then the record.
      const salt = body.subarray(0, 16);
      const sender = body.subarray(21, 21 + body.readUInt8(20));
      const sealed = body.subarray(21 + sender.length);
      const info = Buffer.concat([Buffer.from("WebPush: info\0"), pair.getPublicKey(), sender]);
      const secret = Buffer.from(hkdfSync("sha256", pair.computeSecret(sender), auth, info, 32));
      const key = Buffer.from(hkdfSync("sha256", secret, salt, "Content-Encoding: aes128gcm\0", 16));
      const nonce = Buffer.from(hkdfSync("sha256", secret, salt, "Content-Encoding: nonce\0", 12));
      const open = createDecipheriv("aes-128-gcm", key, nonce);
      open.setAuthTag(sealed.subarray(-16));
      const plain = Buffer.concat([open.update(sealed.subarray(0, -16)), open.final()]);
      return JSON.parse(plain.subarray(0, plain.lastIndexOf(2)).toString("utf8"));
    },
  };
}
