import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { answerLine } from "@/lib/exchange/calculator/answer-line";
import { listing } from "@/lib/exchange/calculator/listing";
import { CALCULATIONS } from "@/lib/exchange/calculator/registry";
import { ask, refusalFrom } from "./ask";

const answered = (line: string) => JSON.parse(answerLine(line) ?? "null");

describe("a line", () => {
  it.each(["not json", "{", '{"id":1', "[1]", "12", "null", '"text"', "\u0000"])(
    "%j is answered as malformed",
    (line) => {
      expect(answered(line)).toMatchObject({ id: null, ok: false, refusal: "malformed-line" });
    },
  );

  it("that is empty asks nothing, and one that is no text is told so", () => {
    expect(answerLine("  ")).toBeNull();
    expect(JSON.parse(answerLine(null) ?? "null")).toMatchObject({ refusal: "malformed-line" });
  });

  it.each([
    ['"a"', "a"],
    ["12", 12],
    ["null", null],
  ])("comes back with its id %s", (id, echoed) => {
    expect(answered(`{"id":${id},"calculation":"pin-index","gas":"oxygen"}`).id).toBe(echoed);
  });

  it.each(["{}", "[1]", "true", "1e999"])("with the id %s is refused", (id) => {
    expect(answered(`{"id":${id},"calculation":"pin-index","gas":"oxygen"}`)).toMatchObject({ id: null, ok: false });
  });

  it.each(["constructor", "__proto__", "toString", "", "Convert"])("that asks for %j hears what there is", (name) => {
    const { refusal, message } = answered(JSON.stringify({ calculation: name }));
    expect(refusal).toBe("unknown-calculation");
    for (const known of CALCULATIONS) expect(message).toContain(known.name);
  });

  it("with a field that is unknown, missing or wrong hears path, value and what would be right", () => {
    const { refusal, message, fields } = refusalFrom("convert", { value: "50", from: "psi", colour: 1 });
    expect(refusal).toBe("invalid-input");
    expect(fields).toEqual([
      { path: "value", value: "50", message: expect.stringContaining("number") },
      { path: "to", value: null, message: expect.stringContaining("kPa") },
      { path: "colour", value: 1, message: expect.stringContaining("unknown field") },
    ]);
    expect(message).toMatch(/value is "50".*to: missing.*colour is 1/);
  });

  it("with a number that JSON cannot hold is refused", () => {
    expect(answered('{"calculation":"convert","value":1e999,"from":"psi","to":"kPa"}').refusal).toBe("invalid-input");
    expect(refusalFrom("endurance", { litres: 1e9, freshGasLPerMin: 1e-300 }).refusal).toBe("beyond-numbers");
  });
});

describe("every calculation", () => {
  it.each(CALCULATIONS.map((one) => [one.name, one] as const))("%s answers its own example", (name, { example }) => {
    const answer = ask(name, example);
    expect(answer.ok, answer.message).toBe(true);
    expect(Object.keys(answer).slice(0, 8)).toEqual([
      "id",
      "ok",
      "calculation",
      "value",
      "unit",
      "method",
      "uncertainty",
      "source",
    ]);
  });

  it.each(CALCULATIONS.map(({ name }) => name))("%s refuses an empty request by a sentence", (name) => {
    expect(["invalid-input", "incomplete"]).toContain(refusalFrom(name, {}).refusal);
  });

  it("is listed with the JSON Schema of its request, each input described", () => {
    for (const { calculation, inputs } of listing()) {
      const { properties, required } = inputs as {
        properties: Record<string, { description?: string }>;
        required: string[];
      };
      expect(required).toContain("calculation");
      for (const [name, { description }] of Object.entries(properties))
        if (name !== "id" && name !== "calculation") expect(description, `${calculation}.${name}`).toMatch(/\w{3}/);
    }
  });
});

describe("anything at all", () => {
  const names = CALCULATIONS.map(({ name }) => name);

  it("is answered by one line of JSON without blanks for numbers", () => {
    fc.assert(
      fc.property(fc.oneof(fc.json(), fc.string()), (line) => {
        const answer = answerLine(line);
        if (line.trim() === "") return answer === null;
        expect(answer).not.toContain("\n");
        return typeof JSON.parse(answer ?? "").ok === "boolean";
      }),
      { numRuns: 500 },
    );
  });

  /** Requests that are nearly right: one input of the example changed. */
  it("near a request that is right is answered or refused, and never breaks", () => {
    const strange = fc.oneof(
      fc.double(),
      fc.integer(),
      fc.constantFrom(
        0,
        -1,
        1e308,
        1e-308,
        1e9,
        -1e9,
        "",
        "2026-02-30",
        "psi",
        "µA",
        "9999-12-31",
        "0001-01-01",
        null,
        [],
        {},
      ),
      fc.jsonValue(),
    );
    const request = fc
      .tuple(fc.constantFrom(...CALCULATIONS), fc.nat(), strange)
      .map(([{ name, example }, at, value]) => {
        const fields = Object.keys(example);
        const field = fields[at % fields.length] ?? "x";
        return { id: 1, calculation: name, ...example, [field]: value };
      });
    fc.assert(
      fc.property(request, (asked) => {
        const answer = JSON.parse(answerLine(JSON.stringify(asked)) ?? "null");
        expect(names).toContain(answer.calculation);
        if (!answer.ok) expect(answer.message.length).toBeGreaterThan(10);
        else expect(answer.value).not.toBeNull();
      }),
      { numRuns: 3_000 },
    );
  });
});
