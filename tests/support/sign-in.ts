/** Signs in over HTTP as a script would, and returns the cookies to send with what follows. */
export async function signInByHttp(url: string, userId: string, password: string): Promise<string> {
  const jar = new Map<string, string>();
  const keep = (response: Response) => {
    for (const line of response.headers.getSetCookie()) {
      const [pair = ""] = line.split(";");
      const at = pair.indexOf("=");
      jar.set(pair.slice(0, at), pair.slice(at + 1));
    }
  };
  const cookie = () => [...jar].map(([name, value]) => `${name}=${value}`).join("; ");
  const first = await fetch(`${url}/api/auth/csrf`);
  keep(first);
  const { csrfToken } = (await first.json()) as { csrfToken: string };
  const second = await fetch(`${url}/api/auth/callback/credentials`, {
    method: "POST",
    redirect: "manual",
    headers: { "Content-Type": "application/x-www-form-urlencoded", Cookie: cookie(), Origin: url },
    body: new URLSearchParams({ csrfToken, userId, password, json: "true" }),
  });
  keep(second);
  if (![...jar.keys()].some((name) => name.endsWith("session-token"))) {
    throw new Error(`${userId} could not sign in (status ${second.status}): ${await second.text()}`);
  }
  return cookie();
}
