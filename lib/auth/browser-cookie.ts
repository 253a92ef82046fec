import { createHash, randomBytes } from "node:crypto";

/** By which one browser is known again, so that its PIN pad offers the people who came in by it, and no others. */
export const BROWSER_COOKIE = "yokeboard-browser";
/** As long as browsers keep any. */
export const BROWSER_COOKIE_SECONDS = 400 * 24 * 3600;

const SHAPE = /^[A-Za-z0-9_-]{32}$/;

export const drawBrowser = (): string => randomBytes(24).toString("base64url");

/** Only its hash is kept: whoever reads the table of sessions cannot pretend to be a browser of it. */
export const browserHash = (cookie: string | undefined): string | null =>
  cookie !== undefined && SHAPE.test(cookie) ? createHash("sha256").update(cookie, "utf8").digest("hex") : null;
