import type { NextRequest } from "next/server";
import type { Actor } from "@/lib/auth/actor";
import { actorOfToken, bearerIn } from "@/lib/auth/api-token";
import { actorOfSession } from "@/lib/auth/session";
import { cookieName, sessionIdOf } from "@/lib/auth/token";
import { systemClock } from "@/lib/live/clock";

/** Who sent this request, by session or by token; null when nobody is signed in, or no longer. A token is never helped out by a cookie. */
export async function actorOf(request: NextRequest): Promise<Actor | null> {
  const authorization = request.headers.get("authorization");
  if (authorization !== null) {
    const token = bearerIn(authorization);
    return token ? actorOfToken(token, () => systemClock().now()) : null;
  }
  const secure = request.headers.get("x-forwarded-proto") === "https";
  const sessionId = await sessionIdOf(request.cookies.get(cookieName(secure))?.value);
  return sessionId ? actorOfSession(sessionId) : null;
}
