import os from "node:os";

/** How a request reached us, from our own configuration and the connection; never from what the client says of itself. */
export interface Address {
  readonly host: string;
  readonly protocol: "http" | "https";
  /** True for the configured public address, whose owner may promise browsers that it will always speak https. */
  readonly published: boolean;
}

export interface HostRules {
  /** Where people find the product, if it stands behind a proxy or has a name. */
  readonly publicUrl?: string;
  /** Further names, each with or without a port. */
  readonly hosts?: readonly string[];
  /** The address we listen on. */
  readonly listen: string;
  readonly tls: boolean;
}

const LOOPBACK = new Set(["localhost", "127.0.0.1", "[::1]"]);

/**
 * Returns undefined for a host nobody configured: a name that somebody else pointed at us would otherwise
 * be trusted by the sign-in. A numeric address of this machine cannot be pointed at us, so those are
 * allowed where we listen on all of them (a phone on the department's network uses one).
 */
export function addressOf(hostHeader: string | undefined, rules: HostRules): Address | undefined {
  const asked = parseHost(hostHeader);
  if (asked === undefined) return undefined;
  const known = rules.publicUrl === undefined ? undefined : new URL(rules.publicUrl);
  if (known && known.host === asked.host) {
    return { host: asked.host, protocol: known.protocol === "https:" ? "https" : "http", published: true };
  }
  const allowed =
    LOOPBACK.has(asked.hostname) ||
    (rules.hosts ?? []).some((name) => name.toLowerCase() === asked.host || name.toLowerCase() === asked.hostname) ||
    ownAddresses(rules.listen).has(asked.hostname);
  return allowed ? { host: asked.host, protocol: rules.tls ? "https" : "http", published: false } : undefined;
}

function parseHost(header: string | undefined): { host: string; hostname: string } | undefined {
  if (header === undefined || !/^(\[[0-9a-f:.]+\]|[a-z0-9._-]+)(:\d{1,5})?$/i.test(header)) return undefined;
  if (!URL.canParse(`http://${header}`)) return undefined;
  const { hostname } = new URL(`http://${header}`);
  return { host: header.toLowerCase(), hostname };
}

function ownAddresses(listen: string): Set<string> {
  if (listen !== "0.0.0.0" && listen !== "::") return new Set([listen.includes(":") ? `[${listen}]` : listen]);
  return new Set(interfaces().map(({ address, family }) => (family === "IPv6" ? `[${address}]` : address)));
}

/** Where a phone on the same network finds a server that listens on all addresses. */
export function networkAddresses(listen: string): string[] {
  if (listen !== "0.0.0.0" && listen !== "::") return [];
  return interfaces().flatMap(({ address, family, internal }) => (family === "IPv4" && !internal ? [address] : []));
}

function interfaces(): os.NetworkInterfaceInfo[] {
  return Object.values(os.networkInterfaces()).flatMap((nets) => nets ?? []);
}
