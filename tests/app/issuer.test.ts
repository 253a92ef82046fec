import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freePort } from "@/lib/cli/embedded/start";
import { bindIdentity, unbindIdentity } from "@/lib/commands/identities";
import { setAccess } from "@/lib/commands/set-access";
import { ask } from "@/tests/support/http";
import { type RunningIssuer, startIssuer, Wanderer } from "@/tests/support/issuer";
import { type ServedDepartment, servedDepartment } from "./served-department";

let served: ServedDepartment;
let issuer: RunningIssuer | undefined;
let address: string;
let home: string;
const account = (
  name: string,
  groups: readonly string[],
  preferred_username = name.split(" ")[0]?.toLowerCase() ?? "",
) => ({
  name,
  preferred_username,
  email: "somebody@alder-ridge.example",
  groups,
});

beforeAll(async () => {
  const port = await freePort();
  address = `http://127.0.0.1:${port}`;
  served = await servedDepartment({
    YOKEBOARD_ISSUER: address,
    YOKEBOARD_ISSUER_CLIENT_ID: "yokeboard",
    YOKEBOARD_ISSUER_CLIENT_SECRET: "a secret of the tests between two processes",
    YOKEBOARD_ISSUER_SCOPE: "openid profile groups",
  });
  home = served.server.url;
  issuer = await startIssuer(port, `${home}/api/auth/callback/issuer`, {
    "s-1": account("Tess Arden", ["anes-tech"]),
    "s-2": account("Nobody Mapped", ["cardiology"]),
    // The user id of somebody who is here already, and the same address as everybody's.
    "s-3": account("Ada Brook", ["anes-tech"], "abrook"),
  });
  const mapping = {
    claim: "groups",
    gives: [
      { value: "anes-tech", roles: ["technician" as const] },
      { value: "anes-md", roles: ["provider" as const] },
    ],
  };
  const { department } = served;
  await department.must(setAccess, { seenVersion: 1, signing: "none", idleMinutes: 10, mapping }, department.admin);
}, 300_000);
afterAll(async () => {
  await issuer?.stop();
  await served.close();
});

const sessionOf = async (who: Wanderer) => {
  const answer = await ask(`${home}/api/v1/session`, { headers: { Cookie: who.cookies(home) } });
  return answer.status === 200
    ? (JSON.parse(answer.body) as { roles: string[]; person: { id: string; userId: string; name: string } })
    : answer.status;
};

describe("coming in by an issuer", () => {
  it("is a new person where the mapping gives the claims a role, known again by the subject, with the roles of today's claims", async () => {
    const tess = new Wanderer();
    expect(await tess.comeInAs("s-1", home)).toBe(`${home}/`);
    const first = await sessionOf(tess);
    expect(first).toMatchObject({ roles: ["technician"], person: { name: "Tess Arden", userId: "tess" } });
    issuer?.set("s-1", account("Tess Arden", ["anes-md"], "renamed"));
    const again = new Wanderer();
    expect(await again.comeInAs("s-1", home)).toBe(`${home}/`);
    expect(await sessionOf(again)).toMatchObject({
      roles: ["provider"],
      person: { id: (first as { person: { id: string } }).person.id, userId: "tess" },
    });
    // What was open with the old roles has ended.
    expect(await sessionOf(tess)).toBe(401);
  });

  it("lets nobody in whom no mapping names, until an administrator binds the subject to a person", async () => {
    const who = new Wanderer();
    expect(await who.comeInAs("s-2", home)).toBe(`${home}/sign-in?error=unknown-subject`);
    expect(await sessionOf(who)).toBe(401);
    const { department } = served;
    const bound = { personId: department.admin.personId, issuer: address, subject: "s-2" };
    await department.must(bindIdentity, bound, department.admin);
    expect(await new Wanderer().comeInAs("s-2", home)).toBe(`${home}/`);
    await department.must(unbindIdentity, { issuer: address, subject: "s-2" }, department.admin);
    expect(await new Wanderer().comeInAs("s-2", home)).toBe(`${home}/sign-in?error=unknown-subject`);
  });

  it("never takes a name or an address for a person: who is called like the administrator is somebody else", async () => {
    const who = new Wanderer();
    expect(await who.comeInAs("s-3", home)).toBe(`${home}/`);
    const session = await sessionOf(who);
    expect(session).toMatchObject({ roles: ["technician"], person: { name: "Ada Brook" } });
    expect((session as { person: { id: string; userId: string } }).person.id).not.toBe(
      served.department.admin.personId,
    );
    expect((session as { person: { userId: string } }).person.userId).toMatch(/^p[0-9a-f]{11}$/);
  });

  it("refuses an answer that was not asked for: no state, no cookies, another's code", async () => {
    const stranger = new Wanderer();
    const response = await stranger.go(
      `${home}/api/auth/callback/issuer?code=made-up&state=made-up&iss=${encodeURIComponent(address)}`,
    );
    expect(response.status).toBe(302);
    expect(response.headers.get("location")).toMatch(/error=OAuthCallback$/);
    expect(await sessionOf(stranger)).toBe(401);
  });
});
