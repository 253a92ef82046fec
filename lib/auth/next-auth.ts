import type { NextAuthOptions } from "next-auth";
import CredentialsProvider from "next-auth/providers/credentials";
import type { Provider } from "next-auth/providers/index";
import { type Claims, configuredIssuer, issuerProvider } from "@/lib/auth/issuer";
import { switchPerson } from "@/lib/auth/lock";
import { attemptLimits } from "@/lib/auth/rate-limit";
import { deviceOf } from "@/lib/auth/request-device";
import { actorOfSession } from "@/lib/auth/session";
import { openSessionOf, signIn, signOut } from "@/lib/auth/sign-in";
import type { Outcome } from "@/lib/domain/outcome";
import { appDatabase } from "@/lib/storage/client";

/** Who somebody is here whom an issuer has sent; a layer above knows, because it may have to write it down. */
export type ComeIn = (
  claims: Claims,
) => Promise<Outcome<Parameters<typeof openSessionOf>[0], "unknown-subject" | "inactive">>;

export interface SignInRequest {
  /** The hash of the browser's own cookie. */
  readonly browser: string | null;
  readonly comeIn: ComeIn;
}

/** The words of an error end up in the address that the browser is sent to: what broke is for the log. */
function unavailable(error: unknown): never {
  console.error(error);
  throw new Error("unavailable");
}

/** What the next step finds of a person who was let in: the session, and nothing of the person. */
interface LetIn {
  readonly id: string;
  readonly name: string;
  sessionId?: string;
}

/** The library knows but one shape of a provider's profile. */
const anIssuer = (): Provider[] => {
  const issuer = configuredIssuer();
  return issuer ? [issuerProvider(issuer) as Provider] : [];
};

const byPassword = (browser: string | null) =>
  CredentialsProvider({
    name: "User id and password",
    credentials: { userId: { label: "User id", type: "text" }, password: { label: "Password", type: "password" } },
    async authorize(credentials, request): Promise<LetIn> {
      const { userId = "", password = "" } = credentials ?? {};
      const device = deviceOf(request.headers);
      const result = await signIn(userId, password, device, appDatabase(), attemptLimits(), browser).catch(unavailable);
      if (!result.ok) throw new Error(result.reason);
      return { id: result.personId, name: result.name, sessionId: result.sessionId };
    },
  });

/** Only for whom a session is open in the same browser: a PIN alone opens nothing anywhere else. */
const byPin = (browser: string | null) =>
  CredentialsProvider({
    id: "pin",
    name: "PIN",
    credentials: { userId: { label: "User id", type: "text" }, pin: { label: "PIN", type: "password" } },
    async authorize(credentials, request): Promise<LetIn> {
      const from = { hash: browser, device: deviceOf(request.headers) };
      const result = await switchPerson(credentials?.userId ?? "", credentials?.pin ?? "", from).catch(unavailable);
      if (!result.ok) throw new Error(result.refusal);
      return { id: result.value.personId, name: result.value.name, sessionId: result.value.sessionId };
    },
  });

/**
 * The cookie is a signed token; it carries the id of our own session row and nothing else, so that a lock, a change of roles or
 * "sign out everywhere" takes effect at once.
 */
export function authOptions({ browser, comeIn }: SignInRequest): NextAuthOptions {
  const secret = process.env.NEXTAUTH_SECRET;
  if (!secret) throw new Error("NEXTAUTH_SECRET is not set: it signs the session cookie");
  return {
    secret,
    session: { strategy: "jwt", maxAge: 14 * 60 * 60 },
    pages: { signIn: "/sign-in", error: "/sign-in" },
    providers: [byPassword(browser), byPin(browser), ...anIssuer()],
    callbacks: {
      async signIn({ user, account, profile }) {
        if (account?.provider !== "issuer") return true;
        const who = await comeIn(profile as Claims).catch(unavailable);
        if (!who.ok) return `/sign-in?error=${who.refusal}`;
        const opened = await openSessionOf(who.value, { method: "issuer", browser }).catch(unavailable);
        if (!opened.ok) return `/sign-in?error=${opened.reason}`;
        (user as LetIn).sessionId = opened.sessionId;
        return true;
      },
      jwt({ token, user }) {
        return user ? { sid: (user as LetIn).sessionId } : token;
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
    logger: { error: explained, warn: () => {}, debug: () => {} },
  };
}

/** Wrong passwords are no errors of ours; an issuer that cannot be reached, or answers nonsense, is for the log. */
function explained(code: string, metadata: unknown): void {
  if (!/^(OAUTH|SIGNIN_OAUTH)/.test(code)) return;
  const cause = metadata instanceof Error ? metadata : (metadata as { error?: unknown } | undefined)?.error;
  console.error(`sign-in by the issuer: ${code}: ${cause instanceof Error ? cause.message : "no further word"}`);
}
