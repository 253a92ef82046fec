import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Role } from "@/lib/domain/vocabulary";
import { type Answer, ask } from "@/tests/support/http";
import { signInByHttp } from "@/tests/support/sign-in";
import {
  insidesIn,
  PASSWORD,
  type Person,
  problemOf,
  type ServedDepartment,
  servedDepartment,
} from "./served-department";

let served: ServedDepartment;
let admin: Person;

beforeAll(async () => {
  served = await servedDepartment();
  admin = await served.signedIn("abrook", "a long enough password", served.department.admin.personId);
}, 300_000);
afterAll(() => served.close());

/** One attempt as a script makes it: the token first, then the form. */
async function attempt(userId: string, password: string, device = "a phone"): Promise<Answer> {
  const { url } = served.server;
  const first = await ask(`${url}/api/auth/csrf`);
  const { csrfToken } = JSON.parse(first.body) as { csrfToken: string };
  const cookie = (first.headers["set-cookie"] ?? []).map((line) => line.split(";")[0]).join("; ");
  const body = new URLSearchParams({ csrfToken, userId, password, json: "true" }).toString();
  const headers = {
    "Content-Type": "application/x-www-form-urlencoded",
    "Content-Length": Buffer.byteLength(body),
    Cookie: cookie,
    Origin: url,
    "User-Agent": device,
  };
  return ask(`${url}/api/auth/callback/credentials`, { method: "POST", headers, body });
}
const letIn = ({ headers }: Answer): boolean =>
  (headers["set-cookie"] ?? []).some((line) => /session-token=[^;]{20,}/.test(line));
const reason = ({ body }: Answer): string | null =>
  new URL((JSON.parse(body) as { url: string }).url).searchParams.get("error");

describe("signing in over HTTP", () => {
  it("opens a session that says who, where and what the buttons may offer", async () => {
    const rosa = await served.person("rosa.osei", ["technician"]);
    const { status, body, headers } = await rosa.get("/api/v1/session");
    expect(status).toBe(200);
    expect(headers["cache-control"]).toBe("no-store");
    expect(JSON.parse(body)).toMatchObject({
      person: { id: rosa.personId, userId: "rosa.osei", name: "Rosa Osei" },
      roles: ["technician"],
      facility: { name: "Alder Ridge", timeZone: "America/Chicago" },
      mayDo: expect.arrayContaining(["start-check", "swap-cylinder"]),
    });
    expect(body).not.toMatch(/argon|hash|secret/i);
  });

  it("gives a cookie that scripts of a page cannot read and other sites do not send", async () => {
    await served.person("karl.brandt", ["provider"]);
    const answer = await attempt("karl.brandt", PASSWORD);
    expect(letIn(answer)).toBe(true);
    const cookie = (answer.headers["set-cookie"] ?? []).find((line) => line.includes("session-token")) ?? "";
    expect(cookie).toMatch(/; HttpOnly/i);
    expect(cookie).toMatch(/; SameSite=Lax/i);
  });

  it("says the same, word for word, to a wrong password and to an unknown id", async () => {
    const [wrong, unknown, broken] = [
      await attempt("karl.brandt", "not the password"),
      await attempt("nobody.here", "not the password"),
      await attempt("\u0000' OR 1=1 --", "\u0000"),
    ];
    expect(reason(wrong)).toBe("wrong");
    for (const answer of [wrong, unknown, broken]) {
      expect([answer.status, answer.body, letIn(answer)]).toEqual([401, wrong.body, false]);
      expect(insidesIn(answer.body)).toEqual([]);
    }
  });

  it("locks the id on that device after ten failures; another device and another id go on", async () => {
    await served.person("omar.quist", ["technician"]);
    for (let failure = 1; failure <= 10; failure += 1)
      expect(reason(await attempt("omar.quist", "wrong", "ward phone"))).toBe("wrong");
    const right = await attempt("omar.quist", PASSWORD, "ward phone");
    expect([reason(right), letIn(right)]).toEqual(["too-many", false]);
    expect(letIn(await attempt("omar.quist", PASSWORD, "desk"))).toBe(true);
    expect(letIn(await attempt("karl.brandt", PASSWORD, "ward phone"))).toBe(true);
  });

  it("without the form's own token lets nobody in", async () => {
    const body = new URLSearchParams({
      userId: "karl.brandt",
      password: PASSWORD,
      json: "true",
      csrfToken: "made-up",
    }).toString();
    const headers = { "Content-Type": "application/x-www-form-urlencoded", "Content-Length": Buffer.byteLength(body) };
    expect(
      letIn(await ask(`${served.server.url}/api/auth/callback/credentials`, { method: "POST", headers, body })),
    ).toBe(false);
  });
});

describe("a session that is over", () => {
  const ended = async (person: Person) => {
    const read = await person.get("/api/v1/tasks");
    const write = await person.command("claim-task", { key: "check:anything" });
    for (const answer of [read, write]) {
      expect(answer.status).toBe(401);
      expect(answer.headers["content-type"]).toBe("application/problem+json");
      expect(problemOf(answer)).toMatchObject({
        type: "urn:yokeboard:problem:sign-in-required",
        status: 401,
        detail: expect.stringMatching(/nothing was changed/),
      });
    }
  };

  it("by signing out: the same cookie opens nothing any more", async () => {
    const ida = await served.person("ida.falk", ["technician"]);
    expect((await ida.get("/api/v1/tasks")).status).toBe(200);
    const token = await ida.get("/api/auth/csrf");
    const { csrfToken } = JSON.parse(token.body) as { csrfToken: string };
    const [csrf = ""] = (token.headers["set-cookie"] ?? [])
      .filter((line) => line.includes("csrf-token"))
      .map((line) => line.split(";")[0] ?? "");
    const body = new URLSearchParams({ csrfToken, json: "true" }).toString();
    const headers = {
      "Content-Type": "application/x-www-form-urlencoded",
      "Content-Length": Buffer.byteLength(body),
      Origin: served.server.url,
    };
    const own = (await ida.ask("/api/auth/signout", { method: "POST", body, headers: csrf ? { ...headers } : headers }))
      .status;
    expect(own).toBeLessThan(400);
    await ended(ida);
  });

  it.each([
    { how: "a change of roles", roles: ["provider" as Role], active: true },
    { how: "leaving", roles: ["technician" as Role], active: false },
  ])("by $how: at once, also for what is under way", async ({ how, roles, active }) => {
    const who = await served.person(how === "leaving" ? "uma.reed" : "leo.marr", ["technician"]);
    expect((await who.get("/api/v1/tasks")).status).toBe(200);
    expect((await admin.command("change-roles", { personId: who.personId, roles, active })).status).toBe(200);
    await ended(who);
  });

  it("by an import that gives other roles", async () => {
    const ben = await served.person("ben.adair", ["technician"]);
    expect((await ben.get("/api/v1/tasks")).status).toBe(200);
    const people = "user id,name,roles,initial password\nben.adair,Ben Adair,provider,";
    const imported = await admin.command("import-department", { files: { people } });
    expect(`${imported.status} ${imported.body}`).toMatch(/^200 /);
    await ended(ben);
  });

  it("that never was: a made-up, a changed or an empty token", async () => {
    const cookie = await signInByHttp(served.server.url, "karl.brandt", PASSWORD);
    const forged = [
      cookie.replace(/(session-token=.{40})./, "$1X"),
      "next-auth.session-token=",
      "next-auth.session-token=e30.e30.e30",
      "",
    ];
    for (const Cookie of forged) {
      const answer = await ask(`${served.server.url}/api/v1/session`, { headers: { Cookie } });
      expect([Cookie.slice(0, 60), answer.status]).toEqual([Cookie.slice(0, 60), 401]);
    }
    expect((await ask(`${served.server.url}/api/v1/session`, { headers: { Cookie: cookie } })).status).toBe(200);
  });

  it("moves to another facility only where its person has a role", async () => {
    const jon = await served.person("jon.stack", ["technician"]);
    const move = (who: Person, facilityId: string) => who.post("/api/v1/session", { facilityId });
    expect((await move(jon, served.otherFacilityId)).status).toBe(404);
    expect(JSON.parse((await jon.get("/api/v1/session")).body)).toMatchObject({ facility: { name: "Alder Ridge" } });
    expect((await move(admin, served.otherFacilityId)).status).toBe(200);
    expect(JSON.parse((await admin.get("/api/v1/session")).body)).toMatchObject({
      facility: { name: "Alder Ridge East", scheme: "ISO" },
    });
    expect((await move(admin, served.department.admin.facility.id)).status).toBe(200);
  });
});
