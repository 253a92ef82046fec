import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { fieldMessage, mayRetry, ProblemError, sendCommand, viewOrThrow } from "@/app/_parts/api.client";
import { newRequestId } from "@/app/_parts/request-id";
import { registerSignInDialog, sessionEnd } from "@/app/_parts/sign-in-again.client";

const answer = (status: number, body: unknown) => new Response(JSON.stringify(body), { status });
const problem = (status: number, detail: string) => answer(status, { type: "t", title: "Refused", status, detail });

const requests: { path: string; key: string | null; body: string }[] = [];
let replies: (Response | Error)[] = [];

beforeEach(() => {
  requests.length = 0;
  vi.stubGlobal("fetch", async (path: string, init: RequestInit) => {
    requests.push({ path, key: new Headers(init.headers).get("idempotency-key"), body: String(init.body ?? "") });
    const reply = replies.shift();
    if (!reply || reply instanceof Error) throw reply ?? new TypeError("nothing left to answer");
    return reply;
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
  replies = [];
});

const roomId = "00000000-0000-4000-8000-000000000001";
const startCase = (key = "a-key") => sendCommand("start-case", { roomId }, { key });

describe("sending a command", () => {
  it("posts its input under its key and hands back the reply", async () => {
    replies = [answer(200, { roomId, at: "2026-12-01T12:00:00Z" })];
    expect(await startCase()).toEqual({ ok: true, value: { roomId, at: "2026-12-01T12:00:00Z" } });
    expect(requests).toEqual([{ path: "/api/v1/commands/start-case", key: "a-key", body: JSON.stringify({ roomId }) }]);
  });

  it("hands back a refusal in the server's words, field by field", async () => {
    replies = [
      answer(422, {
        type: "t",
        title: "Not accepted",
        status: 422,
        detail: "",
        errors: [{ field: "roomId", message: "must be an id" }],
      }),
    ];
    const reply = await startCase();
    expect(reply.ok).toBe(false);
    if (reply.ok) return;
    expect(fieldMessage(reply.problem, "roomId")).toBe("must be an id");
    expect(fieldMessage(reply.problem, "reason")).toBeNull();
    expect(mayRetry(reply.problem)).toBe(false);
  });

  it("says when the server was not reached, and that it may be tried again", async () => {
    replies = [new TypeError("no network")];
    const reply = await startCase();
    expect(reply).toMatchObject({ ok: false, problem: { status: 0 } });
    if (!reply.ok) expect(mayRetry(reply.problem)).toBe(true);
  });

  it("shows nothing of an answer that is not the API's", async () => {
    replies = [new Response("<html>stack trace</html>", { status: 502 })];
    const reply = await startCase();
    expect(JSON.stringify(reply)).not.toContain("stack");
  });
});

describe("a session that has ended", () => {
  it("asks once for all requests that meet it, and sends each again with its own key", async () => {
    const ask = vi.fn(async () => true);
    const leave = registerSignInDialog(ask);
    replies = [problem(401, "sign in"), problem(401, "sign in"), answer(200, {}), answer(200, {})];
    const both = await Promise.all([startCase("first"), startCase("second")]);
    leave();
    expect(both.every(({ ok }) => ok)).toBe(true);
    expect(ask).toHaveBeenCalledTimes(1);
    expect(requests.map(({ key }) => key).sort()).toEqual(["first", "first", "second", "second"]);
  });

  it("sends nothing again when the person turns the dialog away, and keeps saying so", async () => {
    const leave = registerSignInDialog(async () => false);
    replies = [problem(401, "sign in")];
    expect(await startCase()).toMatchObject({ ok: false, problem: { status: 401 } });
    leave();
    expect(requests).toHaveLength(1);
    expect(sessionEnd.hasCome()).toBe(true);
  });

  it("opens no dialog over somebody's work for a read in the background", async () => {
    const ask = vi.fn(async () => true);
    const leave = registerSignInDialog(ask);
    replies = [problem(401, "sign in")];
    await expect(viewOrThrow("/api/v1/board")).rejects.toBeInstanceOf(ProblemError);
    leave();
    expect(ask).not.toHaveBeenCalled();
    expect(sessionEnd.hasCome()).toBe(true);
    replies = [answer(200, {})];
    await viewOrThrow("/api/v1/board");
    expect(sessionEnd.hasCome()).toBe(false);
  });
});

describe("request ids", () => {
  it("are UUIDs of version 4, each another, without randomUUID", () => {
    vi.stubGlobal("crypto", {
      getRandomValues: (into: Uint8Array) => globalThis.crypto && into.map(() => Math.floor(Math.random() * 256)),
    });
    const ids = Array.from({ length: 500 }, newRequestId);
    for (const id of ids) expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(new Set(ids).size).toBe(500);
  });
});
