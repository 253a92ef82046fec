import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { changeRoles } from "@/lib/commands/people";
import { historyExport } from "@/lib/schemas/history-export";
import { newToken } from "@/tests/commands/prepared-access";
import { type Asking, ask } from "@/tests/support/http";
import { workstationIn } from "@/tests/support/room-work";
import { type Person, problemOf, type ServedDepartment, servedDepartment } from "./served-department";

let served: ServedDepartment;
let admin: Person;
let workstationId: string;

beforeAll(async () => {
  served = await servedDepartment();
  admin = await served.person("ada.token", ["administrator", "technician"]);
  workstationId = await workstationIn(served.department, "OR 1");
}, 300_000);
afterAll(() => served.close());

let named = 0;
async function issued(scope: { reads: boolean; commands: string[] }, days = 30) {
  named += 1;
  const token = newToken();
  const answer = await admin.command("issue-token", { name: `Program ${named}`, token, days, ...scope });
  expect(`${answer.status} ${answer.body}`).toMatch(/^200 /);
  expect(answer.body).not.toContain(token);
  const asking = (route: string, { headers, ...rest }: Asking = {}) =>
    ask(`${served.server.url}${route}`, { ...rest, headers: { Authorization: `Bearer ${token}`, ...headers } });
  const command = (name: string, input: unknown) => {
    const body = JSON.stringify(input);
    const headers = { "Content-Type": "application/json", "Content-Length": Buffer.byteLength(body) };
    return asking(`/api/v1/commands/${name}`, { method: "POST", body, headers });
  };
  return { token, tokenId: (JSON.parse(answer.body) as { tokenId: string }).tokenId, get: asking, command };
}

describe("a token", () => {
  it("reads when it was issued for reading, and gives no command then", async () => {
    const program = await issued({ reads: true, commands: [] });
    expect((await program.get("/api/v1/tasks")).status).toBe(200);
    expect((await program.command("hold-workstation", { workstationId, reason: "A hiss." })).status).toBe(403);
  });

  it("gives the commands that it names, for its issuer and with its name in the record, and reads nothing", async () => {
    const program = await issued({ reads: false, commands: ["hold-workstation"] });
    expect((await program.get("/api/v1/tasks")).status).toBe(403);
    expect((await program.command("hold-workstation", { workstationId, reason: "A hiss." })).status).toBe(200);
    expect((await program.command("report-fault", { workstationId, text: "A hiss.", wouldNotUse: false })).status).toBe(
      403,
    );
    const whole = historyExport.parse(JSON.parse((await admin.get("/api/v1/history/export")).body));
    const entry = whole.entries
      .map(({ body }) => JSON.parse(body).entry)
      .find(({ token }) => token?.id === program.tokenId);
    expect(entry).toMatchObject({ command: "hold-workstation", person: { id: admin.personId } });
    expect(whole.entries.every(({ body }) => !body.includes(program.token))).toBe(true);
  });

  it("is never issued for a signature or for who gets in, nor for more than its issuer may", async () => {
    for (const name of [
      "sign-check",
      "confirm-check",
      "approve-rules",
      "issue-token",
      "add-person",
      "change-roles",
      "set-access",
    ]) {
      const answer = await admin.command("issue-token", {
        name: "Too much",
        token: newToken(),
        reads: true,
        commands: [name],
        days: 1,
      });
      expect([name, answer.status]).toEqual([name, 422]);
    }
    const beyond = { name: "Beyond", token: newToken(), reads: true, commands: ["use-in-emergency"], days: 1 };
    expect((await admin.command("issue-token", beyond)).status).toBe(403);
  });

  it("ends when it is revoked, and with its issuer's roles; a made-up one opens nothing, a cookie beside it neither", async () => {
    const program = await issued({ reads: true, commands: ["hold-workstation"] });
    expect((await program.get("/api/v1/tasks")).status).toBe(200);
    expect((await admin.command("revoke-token", { tokenId: program.tokenId })).status).toBe(200);
    expect((await program.get("/api/v1/tasks")).status).toBe(401);
    expect((await admin.ask("/api/v1/tasks", { headers: { Authorization: `Bearer ${newToken()}` } })).status).toBe(401);
    const later = await issued({ reads: false, commands: ["hold-workstation"] });
    const { department } = served;
    await department.must(
      changeRoles,
      { personId: admin.personId, roles: ["administrator"], active: true },
      department.admin,
    );
    expect((await later.command("hold-workstation", { workstationId, reason: "A hiss." })).status).toBe(403);
    await department.must(
      changeRoles,
      { personId: admin.personId, roles: ["administrator", "technician"], active: true },
      department.admin,
    );
    admin = await served.signedIn("ada.token", "a first password of the tests", admin.personId);
  });
});

describe("an export of the history", () => {
  const folder = mkdtempSync(path.join(tmpdir(), "yokeboard-verify-"));
  afterAll(() => rmSync(folder, { recursive: true }));

  const verified = (text: string, ...more: string[]) => {
    const file = path.join(folder, "export.json");
    writeFileSync(file, text);
    const args = ["--import", "tsx", path.join("lib", "cli", "verify.ts"), file, ...more];
    const { status, stdout, stderr } = spawnSync(process.execPath, args, {
      encoding: "utf8",
      env: { ...process.env, DATABASE_URL: "", NEXTAUTH_SECRET: "" },
    });
    return { status, said: stdout + stderr };
  };

  it("is verified offline, whole and in part, against heads that were kept; what was changed is named", async () => {
    const kept = (await admin.get("/api/v1/history/export")).body;
    const { heads, keys } = historyExport.parse(JSON.parse(kept));
    const headFile = path.join(folder, "heads.jsonl");
    writeFileSync(headFile, heads.map((head) => JSON.stringify(head)).join("\n"));
    expect(
      (await admin.command("report-fault", { workstationId, text: "Another hiss.", wouldNotUse: false })).status,
    ).toBe(200);
    const whole = (await admin.get("/api/v1/history/export")).body;
    expect(verified(whole, "--head", headFile, "--key", keys[0]?.id ?? "")).toMatchObject({
      status: 0,
      said: expect.stringMatching(/^Everything fits: all \d+ entries/),
    });
    const part = (await admin.get(`/api/v1/history/export?person=${admin.personId}`)).body;
    expect(verified(part)).toMatchObject({
      status: 0,
      said: expect.stringMatching(/^Everything fits: \d+ of \d+ entries/),
    });

    const changed = JSON.parse(whole) as { entries: { body: string }[] };
    const last = changed.entries.at(-1);
    if (!last) throw new Error("no entries");
    last.body = last.body.replace("Another", "No other");
    expect(verified(JSON.stringify(changed))).toMatchObject({
      status: 1,
      said: expect.stringMatching(/^WRONG: Entry \d+ is not what was recorded/),
    });
    expect(verified(whole.slice(0, -200))).toMatchObject({
      status: 1,
      said: expect.stringMatching(/^WRONG: .*not whole JSON/),
    });
    expect(verified(whole, "--key", "0000000000000000")).toMatchObject({
      status: 1,
      said: expect.stringMatching(/signed nothing/),
    });
    writeFileSync(
      headFile,
      historyExport
        .parse(JSON.parse(whole))
        .heads.map((head) => JSON.stringify(head))
        .join("\n"),
    );
    expect(verified(kept, "--head", headFile)).toMatchObject({
      status: 1,
      said: expect.stringMatching(/^WRONG: .*it was cut/),
    });
  });

  it("asks for a session and is refused to nobody in particular", async () => {
    const answer = await ask(`${served.server.url}/api/v1/history/export`);
    expect([answer.status, problemOf(answer).type]).toEqual([401, "urn:yokeboard:problem:sign-in-required"]);
  });
});
