import type { NextAuthOptions } from "next-auth";
import CredentialsProvider from "next-auth/providers/credentials";
import { actorOfSession } from "@/lib/auth/session";
import { signIn, signOut } from "@/lib/auth/sign-in";

/** The device a request comes from, as far as counting attempts needs it: its address and its browser, shortened. */
export function deviceOf(headers: Readonly<Record<string, unknown>> | undefined): string {
  const text = (name: string) => String(headers?.[name] ?? "").slice(0, 120);
  return `${text("x-forwarded-for")}|${text("user-agent")}`;
}

/** The words of an error end up in the address that the browser is sent to: what broke is for the log. */
function unavailable(error: unknown): never {
  console.error(error);
  throw new Error("unavailable");
}

/**
 * Credentials mean a signed token; it carries the id of our own session row and nothing else, so that a lock, a change of roles or
 * "sign out everywhere" takes effect at once.
 */
export function authOptions(): NextAuthOptions {
  const secret = process.env.NEXTAUTH_SECRET;
  if (!secret) throw new Error("NEXTAUTH_SECRET is not set: it signs the session cookie");
  return {
    secret,
    session: { strategy: "jwt", maxAge: 14 * 60 * 60 },
    pages: { signIn: "/sign-in", error: "/sign-in" },
    providers: [
      CredentialsProvider({
        name: "User id and password",
        credentials: { userId: { label: "User id", type: "text" }, password: { label: "Password", type: "password" } },
        async authorize(credentials, request) {
          const result = await signIn(
            credentials?.userId ?? "",
            credentials?.password ?? "",
            deviceOf(request.headers),
          ).catch(unavailable);
          if (!result.ok) throw new Error(result.reason);
          return { id: result.personId, name: result.name, sessionId: result.sessionId };
        },
      }),
    ],
    callbacks: {
      jwt({ token, user }) {
        if (!user) return token;
        const { sessionId } = user as { sessionId?: string };
        return { sid: sessionId };
      },
      session({ session, token }) {
        return { ...session, user: undefined, sid: token.sid };
      },
    },
    events: {
      async signOut({ token }) {
        const sessionId = typeof token?.sid === "string" ? token.sid : null;
        const actor = sessionId ? await actorOfSession(sessionId) : null;
        if (sessionId && actor)
          await signOut({ sessionId, organisationId: actor.organisationId, facilityId: actor.facility.id });
      },
    },
    logger: { error: () => {}, warn: () => {}, debug: () => {} },
  };
}
