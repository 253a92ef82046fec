import http from "node:http";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { holdWorkstation } from "@/lib/commands/hold";
import { wallBoard } from "@/lib/schemas/wall";
import { drawnCode } from "@/tests/commands/prepared-set-up";
import { ask } from "@/tests/support/http";
import { workstationIn } from "@/tests/support/room-work";
import { type Person, type ServedDepartment, servedDepartment } from "./served-department";

let served: ServedDepartment;
let manager: Person;

beforeAll(async () => {
  served = await servedDepartment();
  manager = await served.person("ines.falk", ["manager"]);
}, 300_000);
afterAll(() => served.close());

async function registered(name: string) {
  const code = drawnCode();
  const { status, body } = await manager.command("register-device", { name, code }, `register-${code}`);
  expect(status).toBe(200);
  expect(body).not.toContain(code);
  const entered = await ask(`${served.server.url}/wall/enter/${code}`);
  const [cookie = ""] = (entered.headers["set-cookie"] ?? []).map((line) => line.split(";")[0] ?? "");
  const get = (path: string) => ask(`${served.server.url}${path}`, { headers: { Cookie: cookie } });
  return { code, deviceId: (JSON.parse(body) as { deviceId: string }).deviceId, entered, cookie, get };
}

/** Everything a stream says until it ends, or until what is waited for was said. */
function stream(path: string, cookie: string) {
  let text = "";
  let ended = false;
  const request = http.get(`${served.server.url}${path}`, { headers: { Cookie: cookie }, agent: false }, (response) => {
    response.setEncoding("utf8");
    response.on("data", (chunk: string) => {
      text += chunk;
    });
    response.on("close", () => {
      ended = true;
    });
  });
  request.on("error", () => {
    ended = true;
  });
  return { said: () => text, ended: () => ended, close: () => request.destroy() };
}

describe("a registered screen on a wall", () => {
  it("enters by its link once, and reads the rooms and their changes", async () => {
    const device = await registered("Corridor, level 2");
    expect(device.entered).toMatchObject({ status: 303, headers: { location: "/wall" } });
    expect(String(device.entered.headers["set-cookie"])).toMatch(/HttpOnly/i);
    expect((await device.get("/wall")).status).toBe(200);
    const wall = await device.get("/api/v1/wall");
    expect(wall.status).toBe(200);
    expect(wallBoard.parse(JSON.parse(wall.body)).rooms.length).toBeGreaterThan(2);
    const events = stream("/api/v1/wall/events", device.cookie);
    await expect.poll(events.said, { timeout: 15_000 }).toContain("event: wall");
    const heard = events.said().length;
    const technician = await served.department.person("Rosa Osei", ["technician"]);
    const workstationId = await workstationIn(served.department, "OR 2");
    await served.department.must(holdWorkstation, { workstationId, reason: "A hiss at the yoke." }, technician);
    await expect.poll(() => events.said().slice(heard), { timeout: 15_000 }).toContain("do-not-use");
    events.close();
  });

  it.each([
    "board",
    "session",
    "tasks",
    "people",
    "history",
    "events",
    "set-up/places",
    "set-up/week",
    "set-up/rules",
    "set-up/devices",
    "set-up/site",
    "reports/reasons?from=2099-02-01&to=2099-02-03",
  ])("reads nothing else: %s", async (path) => {
    const { get } = await registered(`Screen for ${path}`);
    expect((await get(`/api/v1/${path}`)).status).toBe(401);
  });

  it("does nothing, and sees no page but its own", async () => {
    const { get, cookie } = await registered("Screen that tries");
    const body = JSON.stringify({ name: "Another", code: drawnCode() });
    const headers = { Cookie: cookie, "Content-Type": "application/json", "Content-Length": Buffer.byteLength(body) };
    const tried = await ask(`${served.server.url}/api/v1/commands/register-device`, { method: "POST", headers, body });
    expect(tried.status).toBe(401);
    for (const page of ["/", "/tasks", "/set-up/walls"]) {
      const answer = await get(page);
      expect(`${answer.status} ${answer.headers.location ?? answer.body}`).toMatch(/sign-in/);
    }
  });

  it("is ended at once when it is revoked: what it asks, and what it hears", async () => {
    const device = await registered("Screen to go");
    const events = stream("/api/v1/wall/events", device.cookie);
    await expect.poll(events.said, { timeout: 15_000 }).toContain("event: hello");
    expect((await manager.command("revoke-device", { deviceId: device.deviceId })).status).toBe(200);
    await expect.poll(events.ended, { timeout: 5_000 }).toBe(true);
    expect(events.said()).toContain("session-ended");
    expect((await device.get("/api/v1/wall")).status).toBe(401);
    const again = await ask(`${served.server.url}/wall/enter/${device.code}`);
    expect(again.headers).toMatchObject({ location: "/wall/enter?code=unknown" });
    expect(again.headers["set-cookie"]).toBeUndefined();
  });

  it("is seen: the set-up says when, and who registered it", async () => {
    const { get } = await registered("Screen that is seen");
    await get("/api/v1/wall");
    const { body } = await manager.get("/api/v1/set-up/devices");
    const { devices } = JSON.parse(body) as {
      devices: { name: string; lastSeenAt: string | null; registeredBy: string }[];
    };
    expect(devices.find(({ name }) => name === "Screen that is seen")).toMatchObject({
      registeredBy: "Ines Falk",
      lastSeenAt: expect.stringMatching(/^2099-02-03T/),
    });
  });

  it("its code is kept nowhere: not in the answer that is repeated, not in the record", async () => {
    const { code } = await registered("Screen with a secret");
    const again = await manager.command("register-device", { name: "Screen with a secret", code }, `register-${code}`);
    expect(again.headers["idempotency-replayed"]).toBe("true");
    const rows = await served.department.database.inScope(
      { organisationId: served.department.admin.organisationId, facilityId: served.department.admin.facility.id },
      (tx) => tx.$queryRaw<{ n: number }[]>`
        SELECT (SELECT count(*) FROM history.leaf WHERE body LIKE ${`%"${code}"%`})::int + (SELECT count(*) FROM receipt WHERE reply::text LIKE ${`%"${code}"%`})::int
          + (SELECT count(*) FROM wall_device WHERE code_hash = ${code})::int AS n`,
    );
    expect(rows).toEqual([{ n: 0 }]);
  });

  it.each(["too-short", "a".repeat(32), "0".repeat(32), `${drawnCode()}x`])(
    "a code like %s opens nothing and is not taken",
    async (code) => {
      const entered = await ask(`${served.server.url}/wall/enter/${encodeURIComponent(code)}`);
      expect(entered.headers.location).toBe("/wall/enter?code=unknown");
      expect((await manager.command("register-device", { name: `Bad ${code}`, code })).status).toBeGreaterThanOrEqual(
        400,
      );
    },
  );
});
