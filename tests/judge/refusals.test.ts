import { describe, expect, it } from "vitest";
import { judge } from "@/lib/domain/judge";
import { readEvidence } from "@/lib/exchange/judge/read-document";
import { asJson, changed, type Json, placesOf } from "./document";
import { isSound, leaves } from "./each-document";
import { Random } from "./random";
import { randomEvidence } from "./random-evidence";
import { answerTo, place, REFUSALS, ROOM } from "./refusal-table";

function problemsOf(document: unknown) {
  const read = readEvidence(document);
  return read.ok ? [] : read.problems;
}

describe("a document that cannot be judged is refused by its path, with what would be right", () => {
  it.each(REFUSALS)("%s", (_name, path, value, at, message) => {
    const problem = problemsOf(changed(ROOM, path, value)).find((one) => one.path === at);
    expect(problem).toMatchObject({ path: at, message: expect.stringContaining(message) });
  });

  it("tells the value that stands there, and a long one shortened", () => {
    expect(problemsOf(changed(ROOM, ["facility", "scheme"], "EU"))).toMatchObject([{ value: "EU" }]);
    const [long] = problemsOf(changed(ROOM, ["facility", "scheme"], "E".repeat(5_000)));
    expect(String(long?.value).length).toBeLessThan(250);
    const [deep] = problemsOf({ ...ROOM, deep: JSON.parse(`${"[".repeat(50_000)}${"]".repeat(50_000)}`) });
    expect(deep).toMatchObject({ path: "deep", value: "a list" });
  });

  it("tells everything that is wrong at once", () => {
    const twice = changed(changed(ROOM, ["patient"], "x"), answerTo("apl", "passed"), "yes");
    expect(problemsOf(twice).map(({ path }) => path)).toEqual(
      expect.arrayContaining(["patient", `observations[${place("apl")}].answer.passed`]),
    );
  });

  it("takes no number that is too large to be one, and no name that every object has", () => {
    const text = JSON.stringify(ROOM);
    expect(problemsOf(JSON.parse(text.replace('"value":1900', '"value":1e999')))).not.toEqual([]);
    expect(problemsOf(JSON.parse(text.replace('"settings":{}', '"settings":{"__proto__":{"on":false}}')))).not.toEqual(
      [],
    );
    expect(
      problemsOf(JSON.parse(text.replace('"settings":{}', '"settings":{"constructor":{"on":false}}'))),
    ).not.toEqual([]);
  });
});

const GARBAGE: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e300,
  5e-324,
  "",
  "x",
  "2026-03-03T12:00:00Z",
  "9999-12-31T23:59:59Z",
  "oxygen",
  [],
  {},
  { value: 1, unit: "bar" },
  [[]],
];

/** One thing put somewhere where it may not belong, or taken away. */
function spoiled(document: Json, random: Random): Json {
  const path = random.one(placesOf(document));
  return changed(document, path, random.chance(0.2) && path.length > 0 ? undefined : random.one(GARBAGE));
}

it("whatever stands in a document, it is refused in words or judged", { timeout: 240_000 }, () => {
  let refused = 0;
  for (let seed = 1; seed <= 2_000; seed += 1) {
    const random = new Random(-seed);
    const document = spoiled(asJson(randomEvidence(1 + (seed % 50))), random);
    const read = readEvidence(document);
    if (read.ok) judge(read.evidence);
    else {
      refused += 1;
      for (const { message } of read.problems) expect(message, `document ${seed}`).toMatch(/^[^A-Z]/);
    }
  }
  expect(refused).toBeGreaterThan(500);
});

/** The places of a document in which a number stands. */
const numbersOf = (document: Json): (readonly (string | number)[])[] =>
  placesOf(document).filter(
    (path) => typeof path.reduce<unknown>((at, step) => Object(at)[step], document) === "number",
  );

it("a number may be as large or as small as it likes: it is refused, or what is said of it stays finite", {
  timeout: 240_000,
}, () => {
  for (let seed = 1; seed <= 30; seed += 1) {
    const document = asJson(randomEvidence(seed));
    for (const path of numbersOf(document)) {
      for (const value of [1e308, 1e15, 5e-324]) {
        const read = readEvidence(changed(document, path, value));
        const words = read.ok ? [...leaves(judge(read.evidence))] : [];
        expect(words.every(isSound), `document ${seed}, ${path.join(".")} = ${value}`).toBe(true);
      }
    }
  }
});
