import { readFileSync } from "node:fs";
import http, { type IncomingMessage, type ServerResponse } from "node:http";
import https from "node:https";
import type { AddressInfo } from "node:net";
import { addressOf, type HostRules, networkAddresses } from "./hosts";
import { Problem } from "./problem";
import { refuse, refuseLargeBody } from "./refuse";
import { setSecurityHeaders } from "./security-headers";
import { stopServing } from "./stop-serving";

export interface ServerOptions {
  readonly port: number;
  /** The address to listen on; the loopback unless told otherwise. */
  readonly host?: string;
  readonly publicUrl?: string;
  readonly hosts?: readonly string[];
  /** Files of a certificate and its key: then it speaks https itself. */
  readonly tls?: { readonly cert: string; readonly key: string };
}

export interface OpenServer {
  readonly url: string;
  /** Further addresses, for other devices on the network. */
  readonly alsoAt: readonly string[];
  readonly port: number;
  /** Until then every request is answered with "still starting". */
  serve(): Promise<void>;
  stop(): Promise<void>;
}

type Handler = (request: IncomingMessage, response: ServerResponse) => Promise<void>;

/** Headers by which a proxy speaks of the client. We are told by configuration, and believe nobody else. */
const HEARSAY = [
  "forwarded",
  "x-forwarded-for",
  "x-forwarded-host",
  "x-forwarded-port",
  "x-forwarded-proto",
  "x-real-ip",
];

/** Takes the port, before anything slow is done: that it is taken should be said at once. */
export async function openServer(options: ServerOptions): Promise<OpenServer> {
  const { port, host = "127.0.0.1", tls } = options;
  const rules: HostRules = { ...options, listen: host, tls: tls !== undefined };
  let app: Application | undefined;
  const onRequest = (request: IncomingMessage, response: ServerResponse) => {
    if (app) answer(request, response, rules, app.handler).catch((error: unknown) => failed(response, error));
    else refuse(response, 503, "Service Unavailable", "Still starting. Try again in a moment.");
  };
  const server = tls ? https.createServer(readCertificate(tls), onRequest) : http.createServer(onRequest);
  server.keepAliveTimeout = 65_000;
  await listen(server, port, host);
  const bound = (server.address() as AddressInfo).port;
  const scheme = tls ? "https" : "http";
  return {
    url: options.publicUrl ?? `${scheme}://${readable(host)}:${bound}`,
    alsoAt: networkAddresses(host).map((address) => `${scheme}://${address}:${bound}`),
    port: bound,
    serve: async () => {
      // Links in messages lead here, where nothing else was said.
      process.env.YOKEBOARD_PUBLIC_URL ??= options.publicUrl ?? `${scheme}://${readable(host)}:${bound}`;
      app = await loadApplication();
    },
    stop: () => stopServing(server, async () => app?.close()),
  };
}

/** Serves the built application. One process, one server: the database's lifetime is the caller's. */
export async function startServer(options: ServerOptions): Promise<OpenServer> {
  const server = await openServer(options);
  try {
    await server.serve();
  } catch (error) {
    await server.stop();
    throw error;
  }
  return server;
}

async function answer(request: IncomingMessage, response: ServerResponse, rules: HostRules, handler: Handler) {
  const address = addressOf(request.headers.host, rules);
  if (address === undefined) {
    const asked = JSON.stringify(request.headers.host ?? "");
    const detail = `This server does not answer for the host ${asked}. Its names are set with YOKEBOARD_PUBLIC_URL and YOKEBOARD_HOSTS.`;
    return refuse(response, 421, "Misdirected Request", detail);
  }
  if (!isReadable(request.url ?? "/"))
    return refuse(
      response,
      400,
      "Bad Request",
      "The address holds a % that two hexadecimal digits of UTF-8 do not follow.",
    );
  if (refuseLargeBody(request, response)) return;
  for (const name of HEARSAY) delete request.headers[name];
  request.headers["x-forwarded-host"] = address.host;
  request.headers["x-forwarded-proto"] = address.protocol;
  // A layout is not told by the framework which page it stands around.
  request.headers["x-yokeboard-path"] = (request.url ?? "/").split("?", 1)[0];
  request.headers["x-forwarded-for"] = request.socket.remoteAddress ?? "";
  setSecurityHeaders(request, response, address.published && address.protocol === "https");
  await handler(request, response);
}

/** An address with a broken escape means nothing; further in it would be an error. */
function isReadable(url: string): boolean {
  try {
    decodeURIComponent(url.split("?", 1)[0] ?? "");
    return true;
  } catch {
    return false;
  }
}

/** A bug: its details are for the log, not for the client. */
function failed(response: ServerResponse, error: unknown): void {
  console.error(error);
  if (response.headersSent) response.destroy();
  else refuse(response, 500, "Internal Server Error", "The request could not be answered. The server's log says why.");
}

interface Application {
  readonly handler: Handler;
  close(): Promise<void>;
}

async function loadApplication(): Promise<Application> {
  // Next would end the process at the first signal, before the boards and the database are told.
  process.env.NEXT_MANUAL_SIG_HANDLE = "true";
  process.env.NEXT_TELEMETRY_DISABLED = "1";
  // The host is checked above and passed on by us alone, so the sign-in may go by it.
  process.env.AUTH_TRUST_HOST = "true";
  const { default: next } = await import("next");
  const app = next({ dev: false, dir: process.cwd() });
  await app.prepare();
  return { handler: app.getRequestHandler(), close: () => app.close() };
}

function listen(server: http.Server | https.Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", (error: NodeJS.ErrnoException) => reject(explainListen(error, port, host)));
    server.listen(port, host, () => resolve());
  });
}

function explainListen(error: NodeJS.ErrnoException, port: number, host: string): Error {
  if (error.code === "EADDRINUSE") {
    return new Problem(`Port ${port} on ${host} is in use by another program. Choose another with --port N.`);
  }
  if (error.code === "EACCES")
    return new Problem(`Port ${port} may not be opened by this user. Choose one above 1023 with --port N.`);
  if (error.code === "EADDRNOTAVAIL" || error.code === "ENOTFOUND") {
    return new Problem(
      `This machine has no address ${host}. Choose one of its own with --host ADDRESS (0.0.0.0 for all).`,
    );
  }
  return error;
}

function readCertificate({ cert, key }: { cert: string; key: string }): { cert: Buffer; key: Buffer } {
  const read = (option: string, file: string) => {
    try {
      return readFileSync(file);
    } catch (error) {
      throw new Problem(`--${option} ${file} cannot be read (${(error as NodeJS.ErrnoException).code}).`);
    }
  };
  return { cert: read("cert", cert), key: read("key", key) };
}

function readable(host: string): string {
  if (host === "0.0.0.0" || host === "::") return "localhost";
  return host.includes(":") ? `[${host}]` : host;
}
