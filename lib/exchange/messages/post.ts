import { lookup } from "node:dns";
import http from "node:http";
import https from "node:https";
import { BlockList, isIP, type LookupFunction } from "node:net";
import { NotSent, PATIENCE_MS } from "@/lib/domain/outgoing";

const PRIVATE = new BlockList();
for (const [net, bits] of [
  ["0.0.0.0", 8],
  ["10.0.0.0", 8],
  ["100.64.0.0", 10],
  ["127.0.0.0", 8],
  ["169.254.0.0", 16],
  ["172.16.0.0", 12],
  ["192.0.0.0", 24],
  ["192.168.0.0", 16],
  ["198.18.0.0", 15],
  ["224.0.0.0", 3],
] as const)
  PRIVATE.addSubnet(net, bits, "ipv4");
for (const [net, bits] of [
  ["::", 96],
  ["64:ff9b::", 96],
  ["64:ff9b:1::", 48],
  ["2001::", 32],
  ["2002::", 16],
  ["fec0::", 10],
  ["fc00::", 7],
  ["fe80::", 10],
  ["ff00::", 8],
] as const)
  PRIVATE.addSubnet(net, bits, "ipv6");

/** Addresses of the special-purpose registries (RFC 6890) that a server must not be sent to by somebody's setting. */
export function isInside(ip: string): boolean {
  const plain = ip.replace(/^::ffff:(?=\d+\.)/i, "");
  return PRIVATE.check(plain, isIP(plain) === 6 ? "ipv6" : "ipv4");
}

/** Refuses inside the connection itself: a name that is another address the second time is no way around. */
const outsideOnly: LookupFunction = (name, options, callback) => {
  lookup(name, { ...options, all: true }, (error, found) => {
    if (error) return callback(error, "", 4);
    const bad = found.find(({ address }) => isInside(address));
    if (bad) return callback(new NotSent(`${name} ${INSIDE}`, true), "", 4);
    const [first] = found;
    if (options.all) return callback(null, found);
    return callback(null, first?.address ?? "", first?.family ?? 4);
  });
};

const INSIDE = "is inside a private network, and is not one of YOKEBOARD_WEBHOOK_HOSTS";

export interface Post {
  readonly url: URL;
  readonly headers: Readonly<Record<string, string | number>>;
  readonly body: string | Buffer;
}

/**
 * A POST that somebody's own setting asks for. It goes out over https and to public addresses, or to a host that the server's
 * environment names; redirects are not followed; the reply's body is not read. Returns the status.
 */
export function post({ url, headers, body }: Post, inside: readonly string[]): Promise<number> {
  const named = inside.includes(url.host);
  if (!named && url.protocol !== "https:")
    throw new NotSent(`${url.host} is not asked over https, and is not one of YOKEBOARD_WEBHOOK_HOSTS`, true);
  const literal = url.hostname.replace(/^\[|\]$/g, "");
  if (!named && isIP(literal) !== 0 && isInside(literal)) throw new NotSent(`${url.host} ${INSIDE}`, true);
  return new Promise((resolve, reject) => {
    const send = url.protocol === "https:" ? https : http;
    const request = send.request(
      url,
      { method: "POST", headers, agent: false, ...(named ? {} : { lookup: outsideOnly }) },
      (response) => {
        response.destroy();
        resolve(response.statusCode ?? 0);
      },
    );
    // By the clock and not by silence: a reply that comes letter by letter would hold the sender for hours.
    const tooLate = setTimeout(() => request.destroy(new NotSent(`${url.host} did not answer in time`)), PATIENCE_MS);
    request.on("close", () => clearTimeout(tooLate));
    request.on("error", (error) => reject(error instanceof NotSent ? error : unreachable(url, error)));
    request.end(body);
  });
}

const unreachable = ({ host }: URL, error: NodeJS.ErrnoException): NotSent =>
  new NotSent(`${host} could not be reached (${error.code ?? "no reason given"})`);
