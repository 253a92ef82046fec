import type { NextRequest } from "next/server";
import type { Actor } from "@/lib/auth/actor";
import { actorOfSession } from "@/lib/auth/session";
import { cookieName, sessionIdOf } from "@/lib/auth/token";

/** Who sent this request; null when nobody is signed in, or no longer. */
export async function actorOf(request: NextRequest): Promise<Actor | null> {
  const secure = request.headers.get("x-forwarded-proto") === "https";
  const sessionId = await sessionIdOf(request.cookies.get(cookieName(secure))?.value);
  return sessionId ? actorOfSession(sessionId) : null;
}
