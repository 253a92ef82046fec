import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import os from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { discardDataFolder } from "@/lib/cli/embedded/discard";
import { freePort } from "@/lib/cli/embedded/start";
import { ensureBuilt } from "@/lib/cli/ensure-built";
import { birthOf } from "@/lib/cli/process-identity";
import { DEMO_PASSWORD, DEMO_PEOPLE } from "@/seed/demo-people";
import { type DemoRun, runDemo } from "@/tests/support/demo-run";
import { ask } from "@/tests/support/http";
import { signInByHttp } from "@/tests/support/sign-in";

let folder: string;
let port: number;
const runs: DemoRun[] = [];

beforeAll(async () => {
  await ensureBuilt((line) => process.stdout.write(`${line}\n`));
  folder = mkdtempSync(path.join(os.tmpdir(), "yokeboard-demo-"));
  port = await freePort();
}, 300_000);

afterAll(async () => {
  for (const { child } of runs) child.kill("SIGKILL");
  await Promise.all(runs.map((run) => run.ended()));
  await discardDataFolder(folder);
  rmSync(folder, { recursive: true, force: true });
});

function demo(...words: string[]): DemoRun {
  const run = runDemo("--port", String(port), "--data", folder, "--days", "1", ...words);
  runs.push(run);
  return run;
}

const serverProcess = () => {
  const cluster = existsSync(path.join(folder, "cluster-location"))
    ? readFileSync(path.join(folder, "cluster-location"), "utf8").trim()
    : path.join(folder, "cluster");
  return Number.parseInt(readFileSync(path.join(cluster, "postmaster.pid"), "utf8"), 10);
};

const keptClock = () =>
  JSON.parse(readFileSync(path.join(folder, "clock.json"), "utf8")) as { offset: number; day: string };

describe("npm run demo", () => {
  it("fills an empty folder, serves, names its people, and stops in order with a board open", {
    timeout: 300_000,
  }, async () => {
    const run = demo();
    await run.ready();
    const person = DEMO_PEOPLE[0];
    expect(person).toBeDefined();
    expect(run.said()).toContain(`http://127.0.0.1:${port}`);
    expect(run.said()).toContain(`${person?.userId}  `);

    const cookie = await signInByHttp(`http://127.0.0.1:${port}`, person?.userId ?? "", DEMO_PASSWORD);
    const stream = await fetch(`http://127.0.0.1:${port}/api/v1/events`, { headers: { cookie } });
    expect(stream.headers.get("content-type")).toContain("text/event-stream");
    const database = serverProcess();

    const asked = performance.now();
    run.child.kill("SIGTERM");
    expect(await run.ended()).toBe(0);
    expect(performance.now() - asked).toBeLessThan(3_000);
    expect(birthOf(database)).toBeUndefined();
    await expect(stream.text()).resolves.toBeDefined();
  });

  it("goes on with what was kept, and refuses a second run on its folder or its port", {
    timeout: 120_000,
  }, async () => {
    const before = keptClock();
    const run = demo();
    await run.ready();
    expect(keptClock()).toEqual(before);
    expect(run.said()).not.toContain("Filling");

    const second = demo();
    expect(await second.ended()).toBe(1);
    expect(second.said()).toContain(`in use by a run with process number ${run.child.pid}`);

    const elsewhere = runDemo("--port", String(port), "--data", path.join(folder, "other"));
    expect(await elsewhere.ended()).toBe(1);
    expect(elsewhere.said()).toContain(`Port ${port}`);
    expect(elsewhere.said()).toContain("--port");
    expect(existsSync(path.join(folder, "other"))).toBe(false);
    run.child.kill("SIGKILL");
    await run.ended();
  });

  it("cleans up after that killed run, and starts over when told to", { timeout: 300_000 }, async () => {
    const leftover = serverProcess();
    expect(birthOf(leftover)).toBeDefined();
    const run = demo();
    await run.ready();
    expect(birthOf(leftover)).toBeUndefined();
    expect((await ask(`http://127.0.0.1:${port}/sign-in`)).status).toBe(200);
    run.child.kill("SIGINT");
    expect(await run.ended()).toBe(0);

    const again = demo("--reset");
    await again.ready();
    expect(again.said()).toContain("Filling the hospital");
    again.child.kill("SIGTERM");
    expect(await again.ended()).toBe(0);
  });
});
