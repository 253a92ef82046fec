import { once } from "node:events";
import net from "node:net";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ensureBuilt } from "@/lib/cli/ensure-built";
import { type AppServer, startAppServer } from "@/tests/support/app-server";
import { createTestDatabase, type TestDatabase } from "@/tests/support/database";
import { ask } from "@/tests/support/http";

let database: TestDatabase;
let server: AppServer;

beforeAll(async () => {
  await ensureBuilt((line) => process.stdout.write(`${line}\n`));
  database = await createTestDatabase();
  server = await startAppServer({ database });
}, 300_000);

afterAll(async () => {
  await server.stop();
  await database.drop();
});

describe("the server's edge", () => {
  it("answers a host that nobody configured with 421 and a problem document", async () => {
    const { status, headers, body } = await ask(server.url, { headers: { Host: "rebound.example" } });
    expect(status).toBe(421);
    expect(headers["content-type"]).toBe("application/problem+json");
    expect(JSON.parse(body)).toMatchObject({ status: 421, detail: expect.stringContaining("rebound.example") });
  });

  it("refuses more than 10 MB by its declared length, naming both figures", async () => {
    const declared = { "Content-Length": 10 * 1024 * 1024 + 1, Expect: "100-continue" };
    const { status, body } = await ask(`${server.url}/api/v1/session`, { method: "POST", headers: declared });
    expect(status).toBe(413);
    expect(JSON.parse(body).detail).toContain("10485761");
  });

  it("refuses a body in chunks, whose end nobody knows", async () => {
    const { status } = await ask(`${server.url}/api/v1/session`, {
      method: "POST",
      headers: { "Transfer-Encoding": "chunked" },
      body: "{}",
    });
    expect(status).toBe(411);
  });

  it("believes no forwarded host that a client made up", async () => {
    const forged = { "X-Forwarded-Host": "evil.example", "X-Forwarded-Proto": "https", Forwarded: "host=evil.example" };
    const { status, body } = await ask(`${server.url}/api/auth/providers`, { headers: forged });
    expect(status).toBe(200);
    expect(body).toContain(server.url);
    expect(body).not.toContain("evil.example");
  });

  it("gives each page a nonce of its own, on every script, and no inline style", async () => {
    const forged = { "Content-Security-Policy": "script-src 'nonce-chosen-by-a-client'" };
    const pages = await Promise.all([1, 2].map(() => ask(`${server.url}/sign-in`, { headers: forged })));
    const nonces = pages.map(({ headers, body }) => {
      const nonce = /'nonce-([^']+)'/.exec(String(headers["content-security-policy"]))?.[1] ?? "none";
      const scripts = body.match(/<script\b[^>]*>/g) ?? [];
      expect(scripts.length).toBeGreaterThan(0);
      expect(scripts.filter((tag) => !tag.includes(`nonce="${nonce}"`))).toEqual([]);
      expect(body.match(/<[a-z][^>]*\sstyle="/g)).toBeNull();
      return nonce;
    });
    expect(new Set(nonces).size).toBe(2);
    expect(nonces).not.toContain("chosen-by-a-client");
  });

  it("sends the headers that keep a page out of frames and its type fixed", async () => {
    const page = await ask(`${server.url}/sign-in`);
    expect(page.headers).toMatchObject({
      "x-frame-options": "DENY",
      "x-content-type-options": "nosniff",
      "referrer-policy": "same-origin",
    });
    expect(page.headers["content-security-policy"]).toContain("frame-ancestors 'none'");
    expect(page.headers["x-powered-by"]).toBeUndefined();
    const data = await ask(`${server.url}/api/auth/providers`);
    expect(data.headers["x-content-type-options"]).toBe("nosniff");
    expect(data.headers["content-security-policy"]).toBeUndefined();
  });

  it("stops within a second though a client never finishes its request, and starts again on the same port", async () => {
    const socket = net.connect(server.port, "127.0.0.1");
    socket.on("error", () => undefined);
    await once(socket, "connect");
    socket.write(`POST /api/v1/session HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nContent-Length: 100\r\n\r\n{`);
    await ask(`${server.url}/api/auth/providers`);
    const started = performance.now();
    await server.stop();
    expect(performance.now() - started).toBeLessThan(1_500);
    await server.restart();
    expect((await ask(`${server.url}/api/auth/providers`)).status).toBe(200);
  });
});
