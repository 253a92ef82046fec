import type { NextRequest } from "next/server";
import { problem } from "@/app/_edge/problem";

/** A write comes from our own pages or from a program, never from somebody else's page: origin, fetch metadata and content type must say so. */
export function refuseForeign(request: NextRequest): Response | null {
  const site = request.headers.get("sec-fetch-site");
  const origin = request.headers.get("origin");
  const own = `${request.headers.get("x-forwarded-proto") ?? "http"}://${request.headers.get("x-forwarded-host") ?? request.headers.get("host")}`;
  if ((site !== null && site !== "same-origin" && site !== "none") || (origin !== null && origin !== own))
    return problem(
      403,
      "foreign-origin",
      "Not from here",
      `This request came from ${origin ?? "another site"}; only ${own} may send it.`,
    );
  const type = request.headers.get("content-type") ?? "";
  if (!/^application\/json\s*(;|$)/i.test(type))
    return problem(415, "not-json", "Not JSON", `The content type is "${type || "missing"}"; send application/json.`);
  return null;
}

/** The JSON body, or the problem with it. */
export async function jsonBody(
  request: NextRequest,
): Promise<{ ok: true; value: unknown } | { ok: false; response: Response }> {
  try {
    return { ok: true, value: await request.json() };
  } catch {
    return { ok: false, response: problem(400, "not-json", "Not JSON", "The body is not JSON that can be read.") };
  }
}
