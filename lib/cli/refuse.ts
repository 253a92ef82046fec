import type { IncomingMessage, ServerResponse } from "node:http";

/** Nothing a person enters or imports is larger. */
export const BODY_LIMIT_BYTES = 10 * 1024 * 1024;

/** Answers with a problem document (RFC 9457) and closes the connection, whose body nobody will read. */
export function refuse(response: ServerResponse, status: number, title: string, detail: string): void {
  const body = JSON.stringify({ type: "about:blank", title, status, detail });
  response.writeHead(status, {
    "Content-Type": "application/problem+json",
    "Content-Length": Buffer.byteLength(body),
    Connection: "close",
  });
  response.end(body);
}

/** Node holds a sender to the length it declares, so that length is all there is to check. True if refused. */
export function refuseLargeBody(request: IncomingMessage, response: ServerResponse): boolean {
  if (request.headers["transfer-encoding"] !== undefined) {
    refuse(response, 411, "Length Required", "Send the body with a Content-Length, not in chunks.");
    return true;
  }
  const length = Number(request.headers["content-length"] ?? 0);
  if (length <= BODY_LIMIT_BYTES) return false;
  const detail = `The body has ${length} bytes; at most ${BODY_LIMIT_BYTES} (10 MB) are taken.`;
  refuse(response, 413, "Content Too Large", detail);
  return true;
}
