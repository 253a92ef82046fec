/** Sign-in and sign-out against the site's own session endpoints, without loading a client library for two requests. */
export type SignInResult = { ok: true } | { ok: false; message: string };

async function csrfToken(): Promise<string> {
  const response = await fetch("/api/auth/csrf", { credentials: "same-origin", cache: "no-store" });
  const { csrfToken } = (await response.json()) as { csrfToken: string };
  return csrfToken;
}

function form(fields: Record<string, string>): RequestInit {
  return {
    method: "POST",
    headers: { "content-type": "application/x-www-form-urlencoded" },
    body: new URLSearchParams(fields).toString(),
    credentials: "same-origin",
  };
}

const REFUSALS: Record<string, string> = {
  wrong: "User id and password do not belong together. Passwords tell capitals from small letters.",
  "too-many": "Too many attempts with this user id from here. Wait a few minutes, then try again.",
  "no-facility": "You have no role at any facility. An administrator gives you one.",
};
const NOT_SIGNED_IN = "Signing in did not work. Reload the page and try again.";

export async function signIn(userId: string, password: string): Promise<SignInResult> {
  try {
    const fields = { csrfToken: await csrfToken(), userId, password, callbackUrl: "/", json: "true" };
    const response = await fetch("/api/auth/callback/credentials", form(fields));
    if (response.ok) return { ok: true };
    const body: unknown = await response.json().catch(() => null);
    return { ok: false, message: REFUSALS[reasonIn(body)] ?? NOT_SIGNED_IN };
  } catch {
    return { ok: false, message: "The server was not reached. Check the connection and try again." };
  }
}

const FROM_ISSUER: Record<string, string> = {
  "unknown-subject":
    "Your organisation knows you, but nobody here is bound to that account. An administrator does that.",
  inactive: "You are no longer active here. An administrator can change that.",
  "no-facility": REFUSALS["no-facility"] ?? NOT_SIGNED_IN,
};

/** What went wrong on the way back from the organisation's sign-in; null without an error. */
export const issuerError = (error: string | null): string | null =>
  error === null
    ? null
    : (FROM_ISSUER[error] ?? "Your organisation's sign-in did not work. Try again, or use your user id.");

/** Goes to the organisation's own sign-in; it sends the browser back. */
export async function goToIssuer(next: string): Promise<string | null> {
  try {
    const fields = { csrfToken: await csrfToken(), callbackUrl: next, json: "true" };
    const response = await fetch("/api/auth/signin/issuer", form(fields));
    const { url } = (await response.json()) as { url?: string };
    if (!response.ok || !url) return issuerError("unreachable");
    window.location.assign(url);
    return null;
  } catch {
    return "The server was not reached. Check the connection and try again.";
  }
}

/** The reason stands in the address that a browser without scripts would be sent to. */
function reasonIn(body: unknown): string {
  if (typeof body !== "object" || body === null || !("url" in body) || typeof body.url !== "string") return "";
  return new URL(body.url, window.location.origin).searchParams.get("error") ?? "";
}

export async function signOut(): Promise<void> {
  await fetch("/api/auth/signout", form({ csrfToken: await csrfToken(), callbackUrl: "/sign-in", json: "true" }));
}
