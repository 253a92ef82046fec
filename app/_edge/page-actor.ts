import { cookies, headers } from "next/headers";
import { redirect } from "next/navigation";
import type { Actor } from "@/lib/auth/actor";
import { actorOfSession } from "@/lib/auth/session";
import { cookieName, sessionIdOf } from "@/lib/auth/token";

/** Who looks at this page; null when nobody is signed in. */
export async function currentPerson(): Promise<Actor | null> {
  const secure = (await headers()).get("x-forwarded-proto") === "https";
  const sessionId = await sessionIdOf((await cookies()).get(cookieName(secure))?.value);
  return sessionId ? actorOfSession(sessionId) : null;
}

/** The same for pages that need somebody: others go to the sign-in page and come back afterwards. */
export async function requirePerson(next = "/"): Promise<Actor> {
  const actor = await currentPerson();
  if (!actor) redirect(`/sign-in?next=${encodeURIComponent(next)}`);
  return actor;
}
