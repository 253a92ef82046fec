import type { NextRequest } from "next/server";
import NextAuth from "next-auth";
import { BROWSER_COOKIE, BROWSER_COOKIE_SECONDS, browserHash, drawBrowser } from "@/lib/auth/browser-cookie";
import { authOptions } from "@/lib/auth/next-auth";
import { comeIn } from "@/lib/commands/come-in";
import { appSurroundings } from "@/lib/commands/surroundings";
import { systemClock } from "@/lib/live/clock";

interface Params {
  readonly params: Promise<{ nextauth: string[] }>;
}

async function handle(request: NextRequest, context: Params): Promise<Response> {
  const sent = request.cookies.get(BROWSER_COOKIE)?.value;
  const known = browserHash(sent) !== null;
  const cookie = known && sent ? sent : drawBrowser();
  const options = authOptions({
    browser: browserHash(cookie),
    comeIn: (claims) => comeIn(appSurroundings(systemClock()), claims),
  });
  const response: Response = await NextAuth(request, context, options);
  if (!known) response.headers.append("set-cookie", browserCookie(cookie, request));
  return response;
}

const browserCookie = (value: string, request: NextRequest): string => {
  const secure = request.headers.get("x-forwarded-proto") === "https" ? "; Secure" : "";
  return `${BROWSER_COOKIE}=${value}; Path=/; Max-Age=${BROWSER_COOKIE_SECONDS}; HttpOnly; SameSite=Lax${secure}`;
};

export { handle as GET, handle as POST };
