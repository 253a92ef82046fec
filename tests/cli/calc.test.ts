import { spawn } from "node:child_process";
import { once } from "node:events";
import { describe, expect, it } from "vitest";

const open = (...options: string[]) =>
  spawn(process.execPath, ["--import", "tsx", "lib/cli/calc.ts", ...options], { stdio: "pipe" });

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

async function calc(input: string | Buffer, ...options: string[]): Promise<Ended> {
  const process_ = open(...options);
  const out: Buffer[] = [];
  const err: Buffer[] = [];
  process_.stdout.on("data", (chunk: Buffer) => out.push(chunk));
  process_.stderr.on("data", (chunk: Buffer) => err.push(chunk));
  process_.stdin.end(input);
  const [code] = (await once(process_, "close")) as [number | null];
  return { code, out: Buffer.concat(out).toString(), err: Buffer.concat(err).toString() };
}

const convert = (id: number, value = id) => JSON.stringify({ id, calculation: "convert", value, from: "L", to: "mL" });
const answers = ({ out }: Ended) =>
  out
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));

describe("the calculator on the command line", () => {
  it("answers each line in its place, refusals too, and ends with 0", async () => {
    const ended = await calc(
      `${convert(1)}\r\n\nnot json\n${convert(2)}\n{"id":3,"calculation":"what"}\n[]\n${convert(4)}`,
    );
    expect(ended).toMatchObject({ code: 0, err: "" });
    expect(answers(ended).map(({ id, ok, value, refusal }) => [id, ok, value ?? refusal])).toEqual([
      [1, true, 1000],
      [null, false, "malformed-line"],
      [2, true, 2000],
      [3, false, "unknown-calculation"],
      [null, false, "malformed-line"],
      [4, true, 4000],
    ]);
  });

  it("answers a line that is no UTF-8", async () => {
    const ended = await calc(Buffer.concat([Buffer.from([0xff, 0xfe, 0x0a]), Buffer.from(convert(5))]));
    expect(answers(ended).map(({ ok }) => ok)).toEqual([false, true]);
  });

  it("answers while the input is still open", async () => {
    const process_ = open();
    process_.stdin.write(`${convert(1)}\n`);
    const [first] = (await once(process_.stdout, "data")) as [Buffer];
    expect(JSON.parse(first.toString())).toMatchObject({ id: 1, value: 1000 });
    process_.stdin.end();
    expect(await once(process_, "close")).toEqual([0, null]);
  });

  it("answers a pipe of many lines, thousands a second", async () => {
    const many = 30_000;
    const lines = Array.from({ length: many }, (_, id) =>
      JSON.stringify({
        id,
        calculation: "cylinder-contents",
        gas: "oxygen",
        waterCapacityL: 4.8,
        pressure: { value: (id % 2500) + 0.5, unit: "psi" },
        temperatureC: 15 + (id % 100) / 10,
      }),
    );
    const began = performance.now();
    const ended = await calc(`${lines.join("\n")}\n`);
    const perSecond = many / ((performance.now() - began) / 1000);
    expect(answers(ended).every(({ id, ok }, place) => ok && id === place)).toBe(true);
    // Start of the program counted, on a machine that does other work besides.
    expect(perSecond).toBeGreaterThan(2_000);
  }, 60_000);

  it("is quiet when nobody reads on", async () => {
    const process_ = open();
    let err = "";
    process_.stderr.on("data", (chunk) => {
      err += chunk;
    });
    process_.stdin.on("error", () => undefined);
    process_.stdin.end(`${convert(1)}\n`.repeat(50_000));
    await once(process_.stdout, "data");
    process_.stdout.destroy();
    const [code] = (await once(process_, "close")) as [number];
    expect({ code, err }).toEqual({ code: 0, err: "" });
  });

  it("lists every calculation with the JSON Schema of its inputs", async () => {
    const ended = await calc("", "--list");
    expect(ended.code).toBe(0);
    const listed = JSON.parse(ended.out) as { calculation: string; inputs: { type: string } }[];
    expect(listed.map(({ calculation }) => calculation)).toEqual(
      expect.arrayContaining(
        "cylinder-contents nitrous-oxide-by-weight saturation-pressure last-liquid-contents closed-cylinder-pressure endurance vaporizer-use absorbent-life oxygen-cell-life service-due risk-score electrical-safety gs1 gs1-check-digit hibc convert".split(
          " ",
        ),
      ),
    );
    expect(listed.every(({ inputs }) => inputs.type === "object")).toBe(true);
  });

  it("names an option that is not known", async () => {
    const ended = await calc("", "--lst");
    expect(ended.code).toBe(1);
    expect(ended.err).toContain("--lst is not known here");
    expect(ended.err).not.toContain("at ");
  });
});
