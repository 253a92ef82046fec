import { decode } from "next-auth/jwt";

/** The cookie's name depends on whether the address is https; next-auth chooses the same way. */
export const cookieName = (secure: boolean): string => `${secure ? "__Secure-" : ""}next-auth.session-token`;

const MOST_KEPT = 5_000;
const shared = globalThis as { __yokeboardTokens?: Map<string, string> };

/** The session id inside a signed token; null for anything that is not one of ours. Opening a token is slow, so ids are kept. */
export async function sessionIdOf(token: string | undefined): Promise<string | null> {
  if (!token) return null;
  shared.__yokeboardTokens ??= new Map();
  const kept = shared.__yokeboardTokens.get(token);
  if (kept) return kept;
  const sessionId = await openToken(token);
  if (sessionId === null) return null;
  if (shared.__yokeboardTokens.size >= MOST_KEPT) shared.__yokeboardTokens.clear();
  shared.__yokeboardTokens.set(token, sessionId);
  return sessionId;
}

async function openToken(token: string): Promise<string | null> {
  try {
    const opened = await decode({ token, secret: process.env.NEXTAUTH_SECRET ?? "" });
    return typeof opened?.sid === "string" ? opened.sid : null;
  } catch {
    return null;
  }
}
