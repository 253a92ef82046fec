import { spawn } from "node:child_process";
import { describe, expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { explained } from "@/lib/domain/why";
import { readyRoom } from "@/tests/support/ready-room";

const PATIENCE = 120_000;

interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function start(...options: string[]) {
  const child = spawn(process.execPath, ["--import", "tsx", "lib/cli/judge.ts", ...options], { stdio: "pipe" });
  const texts = { out: "", err: "" };
  child.stdout.setEncoding("utf8").on("data", (text: string) => {
    texts.out += text;
  });
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    texts.err += text;
  });
  const ended = new Promise<Ran>((resolve) => child.on("close", (code) => resolve({ code, ...texts })));
  return { child, texts, ended };
}

function run(input: string | Uint8Array, ...options: string[]): Promise<Ran> {
  const { child, ended } = start(...options);
  child.stdin.end(input);
  return ended;
}

const linesOf = ({ out }: Ran): unknown[] =>
  out
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line));

const US = readyRoom("US");
const ISO = readyRoom("ISO");
const bare = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe("npm run judge", { timeout: PATIENCE }, () => {
  it("answers an indented document indented", async () => {
    const ran = await run(JSON.stringify(US, null, 2));
    expect(ran).toEqual({ code: 0, out: `${JSON.stringify(judge(US), null, 2)}\n`, err: "" });
  });

  it("answers a document on one line on one line, also without a line end", async () => {
    const ran = await run(JSON.stringify(US));
    expect(ran).toEqual({ code: 0, out: `${JSON.stringify(judge(US))}\n`, err: "" });
  });

  it("answers lines in their order, with what is wrong in its place, and ends with 1", async () => {
    const wrong = { ...US, patient: "x" };
    const lines = [JSON.stringify(US), "", JSON.stringify(wrong), "{ not json", "5", JSON.stringify(ISO)];
    const ran = await run(`\ufeff${lines.join("\r\n")}\r\n`);
    expect(ran.code).toBe(1);
    expect(linesOf(ran)).toEqual([
      bare(judge(US)),
      { error: { line: 3, problems: [expect.objectContaining({ path: "patient", value: "x" })] } },
      {
        error: {
          line: 4,
          problems: [expect.objectContaining({ path: "", message: expect.stringContaining("line 4") })],
        },
      },
      {
        error: {
          line: 5,
          problems: [expect.objectContaining({ message: expect.stringContaining("must be an object, not a number") })],
        },
      },
      bare(judge(ISO)),
    ]);
  });

  it("answers each line as it comes, before the input has ended", async () => {
    const { child, texts, ended } = start();
    child.stdin.write(`${JSON.stringify(US)}\n`);
    await expect.poll(() => texts.out, { timeout: PATIENCE / 2 }).toBe(`${JSON.stringify(judge(US))}\n`);
    child.stdin.end();
    expect((await ended).code).toBe(0);
  });

  it("reads indented documents one after another", async () => {
    const ran = await run(`${JSON.stringify(US, null, 2)}\n\n${JSON.stringify(ISO, null, 2)}\n`);
    expect(ran.out).toBe([US, ISO].map((room) => `${JSON.stringify(judge(room), null, 2)}\n`).join(""));
  });

  it("tells where an indented document is broken, once", async () => {
    const broken = JSON.stringify(US, null, 2).replace('"facility": {', '"facility": {{');
    const ran = await run(broken);
    expect(ran.code).toBe(1);
    expect(JSON.parse(ran.out)).toMatchObject({
      error: { line: 1, problems: [{ message: expect.stringContaining("line 4, column 16") }] },
    });
  });

  it("finds the next document after one that was cut short", async () => {
    const whole = JSON.stringify(US);
    const ran = await run(`${whole.slice(0, 400)}\n${whole}\n`);
    expect(linesOf(ran)).toEqual([{ error: expect.objectContaining({ line: 1 }) }, bare(judge(US))]);
  });

  it("refuses what is no text, and a document that is none", async () => {
    const ran = await run(Buffer.concat([Buffer.from([0xff, 0xfe, 0x00, 0x0a]), Buffer.from(JSON.stringify(US))]));
    expect(linesOf(ran)).toEqual([
      { error: { line: 1, problems: [{ path: "", value: null, message: "is not text in UTF-8" }] } },
      bare(judge(US)),
    ]);
    expect(await run("  \n")).toMatchObject({ code: 1, out: "" });
  });

  it("ends quietly when nobody reads on", async () => {
    const { child, ended } = start();
    child.stdout.destroy();
    child.stdin.on("error", () => {});
    child.stdin.write(`${JSON.stringify(US)}\n`.repeat(200));
    child.stdin.end();
    expect(await ended).toMatchObject({ err: "" });
  });

  it("tells with --why what clears each reason and the shortest way", async () => {
    const low = { ...US, observations: US.observations.filter(({ item }) => item !== "apl") };
    const ran = await run(JSON.stringify(low), "--why");
    expect(JSON.parse(ran.out)).toEqual(bare(explained(low)));
    expect(JSON.parse(ran.out)).toMatchObject({
      state: "to-check",
      whyNot: { actions: [{ items: [{ item: "apl" }] }] },
    });
  });

  it("prints the shapes, the rules and its help", async () => {
    const evidence = await run("", "--schema");
    expect(JSON.parse(evidence.out)).toMatchObject({ type: "object", additionalProperties: false });
    const answer = await run("", "--schema", "judgement");
    expect(JSON.parse(answer.out).properties).toHaveProperty("goodUntil");
    const why = await run("", "--schema", "explained");
    expect(JSON.parse(why.out).properties).toHaveProperty("whyNot");
    const rules = await run("", "--rules");
    expect(JSON.parse(rules.out).rules.length).toBeGreaterThan(40);
    expect((await run("", "--help")).out).toContain("npm run --silent judge");
    expect(await run("", "--schema", "nothing")).toMatchObject({
      code: 1,
      out: "",
      err: expect.stringContaining("evidence, judgement, explained"),
    });
    expect(await run("", "--rulez")).toMatchObject({
      code: 1,
      out: "",
      err: expect.stringContaining("--rulez is not known"),
    });
  });
});
