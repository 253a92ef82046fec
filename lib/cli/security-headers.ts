import { randomBytes } from "node:crypto";
import type { IncomingMessage, ServerResponse } from "node:http";

/** Sent with everything. */
const ALWAYS: Record<string, string> = {
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "same-origin",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
};

/** The camera is for scanning a workstation's label; nothing else of the device is ever asked for. */
const PERMISSIONS = "camera=(self), microphone=(), geolocation=(), payment=(), usb=(), serial=()";

/**
 * The content security policy with a fresh nonce for each page. It is set here and not in a proxy file,
 * which would cost every request a third: the renderer reads the nonce from the request's own header.
 */
export function setSecurityHeaders(request: IncomingMessage, response: ServerResponse, promiseHttps: boolean): void {
  // Never the client's word: a nonce it chose would be one it knows.
  delete request.headers["content-security-policy"];
  delete request.headers["content-security-policy-report-only"];
  for (const [name, value] of Object.entries(ALWAYS)) response.setHeader(name, value);
  if (promiseHttps) response.setHeader("Strict-Transport-Security", "max-age=31536000");
  if (!isPage(request.url ?? "/")) return;
  const policy = contentSecurityPolicy(randomBytes(16).toString("base64"));
  request.headers["content-security-policy"] = policy;
  response.setHeader("Content-Security-Policy", policy);
  response.setHeader("X-Frame-Options", "DENY");
  response.setHeader("Permissions-Policy", PERMISSIONS);
}

function isPage(url: string): boolean {
  return !url.startsWith("/api/") && !url.startsWith("/_next/static/");
}

function contentSecurityPolicy(nonce: string): string {
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'`,
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; ");
}
