import { spawn } from "node:child_process";
import { once } from "node:events";
import path from "node:path";

export interface IssuerAccount {
  readonly name: string;
  readonly preferred_username: string;
  readonly email: string;
  readonly groups: readonly string[];
}

export interface RunningIssuer {
  set(id: string, account: IssuerAccount): void;
  stop(): Promise<void>;
}

/** Starts an issuer that sends its people back to `redirect`. */
export async function startIssuer(
  port: number,
  redirect: string,
  accounts: Readonly<Record<string, IssuerAccount>>,
): Promise<RunningIssuer> {
  const script = path.join(process.cwd(), "tests", "support", "issuer-process.ts");
  const env = {
    ...process.env,
    ISSUER_PORT: String(port),
    ISSUER_REDIRECT: redirect,
    ISSUER_ACCOUNTS: JSON.stringify(accounts),
  };
  const child = spawn(process.execPath, ["--import", "tsx", script], { env, stdio: ["pipe", "pipe", "ignore"] });
  await new Promise<void>((resolve, reject) => {
    child.stdout.on("data", (chunk: Buffer) => {
      if (chunk.toString("utf8").includes("issuing ")) resolve();
    });
    child.once("exit", () => reject(new Error("the issuer ended before it listened")));
  });
  return {
    set: (id, account) => {
      child.stdin.write(`${JSON.stringify({ id, account })}\n`);
    },
    stop: async () => {
      const ended = once(child, "exit");
      child.kill("SIGTERM");
      await ended;
    },
  };
}

/** A browser's cookies and redirects, without a browser. */
export class Wanderer {
  readonly #jars = new Map<string, Map<string, string>>();

  async go(url: string, init: RequestInit = {}): Promise<Response> {
    const { origin } = new URL(url);
    const jar = this.#jars.get(origin) ?? new Map<string, string>();
    this.#jars.set(origin, jar);
    const cookie = [...jar].map(([name, value]) => `${name}=${value}`).join("; ");
    const response = await fetch(url, { ...init, redirect: "manual", headers: { ...init.headers, cookie } });
    for (const line of response.headers.getSetCookie()) {
      const [pair = ""] = line.split(";");
      const at = pair.indexOf("=");
      jar.set(pair.slice(0, at), pair.slice(at + 1));
    }
    return response;
  }

  cookies(origin: string): string {
    return [...(this.#jars.get(origin) ?? [])].map(([name, value]) => `${name}=${value}`).join("; ");
  }

  /** Follows redirects, and fills in the issuer's two forms: who it is, and yes. Returns the last address at `home`. */
  async comeInAs(id: string, home: string): Promise<string> {
    const { csrfToken } = (await (await this.go(`${home}/api/auth/csrf`)).json()) as { csrfToken: string };
    const started = await this.go(`${home}/api/auth/signin/issuer`, {
      method: "POST",
      headers: { "content-type": "application/x-www-form-urlencoded", origin: home },
      body: new URLSearchParams({ csrfToken, callbackUrl: `${home}/`, json: "true" }),
    });
    let { url } = (await started.json()) as { url: string };
    for (let step = 0; step < 20; step += 1) {
      let response = await this.go(url);
      if (response.status === 200 && !url.startsWith(home)) {
        const page = await response.text();
        const action = /action="([^"]+)"/.exec(page)?.[1] ?? url;
        const prompt = /name="prompt" value="(\w+)"/.exec(page)?.[1] ?? "login";
        response = await this.go(new URL(action, url).href, {
          method: "POST",
          headers: { "content-type": "application/x-www-form-urlencoded" },
          body: new URLSearchParams({ prompt, login: id, password: "any" }),
        });
      }
      const next = response.headers.get("location");
      if (!next) return url;
      url = new URL(next, url).href;
      if (url === `${home}/` || url.startsWith(`${home}/sign-in`)) return url;
    }
    throw new Error("the redirects did not end");
  }
}
