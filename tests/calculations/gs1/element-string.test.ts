import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  applicationIdentifier,
  identifierLength,
  predefinedLength,
} from "@/lib/calculations/gs1/application-identifiers";
import { buildElementString } from "@/lib/calculations/gs1/build-string";
import { checkDigitOf, gs1CheckDigit } from "@/lib/calculations/gs1/check-digit";
import { fieldsOf, readElementString } from "@/lib/calculations/gs1/element-string";
import { localDate } from "@/lib/units/time";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const SEEN_ON = localDate("2026-11-25");
const GS = "\u001d";
const read = (text: string) => readElementString(text, SEEN_ON);
const fields = (text: string) => fieldsOf(answerOf(read(text)));

const digitsOf = (length: number) => fc.stringMatching(new RegExp(`^\\d{${length}}$`));
const gtin = digitsOf(13).map((digits) => digits + checkDigitOf(digits));

describe("the modulo 10 check digit", () => {
  it("finds every single digit that is wrong", () => {
    fc.assert(
      fc.property(gtin, fc.nat(13), fc.integer({ min: 1, max: 9 }), (code, place, by) => {
        const changed = String((Number(code[place]) + by) % 10);
        const wrong = code.slice(0, place) + changed + code.slice(place + 1);
        expect(refusalOf(read(`01${wrong}`))).toBe("check-digit");
      }),
    );
  });

  it("finds two neighbours that changed places, except where they differ by 5", () => {
    fc.assert(
      fc.property(gtin, fc.nat(12), (code, place) => {
        const [one, other] = [Number(code[place]), Number(code[place + 1])];
        const wrong = `${code.slice(0, place)}${other}${one}${code.slice(place + 2)}`;
        expect(read(`01${wrong}`).ok).toBe((one - other) % 5 === 0);
      }),
      { numRuns: 500 },
    );
  });

  it("refuses what is no row of digits", () => {
    for (const text of ["", "12a", "12 3", "-12", "1".repeat(81)])
      expect(refusalOf(gs1CheckDigit(text))).toBe("not-digits");
  });
});

describe("reading what was built", () => {
  const text = (length: number) => fc.stringMatching(new RegExp(`^[A-Za-z0-9!"%&'*+,\\-./:;<=>?_]{1,${length}}$`));
  const known = fc.tuple(
    gtin.map((value) => ({ ai: "01", value })),
    fc.integer({ min: 0, max: 28 }).map((day) => ({ ai: "17", value: `2702${String(day).padStart(2, "0")}` })),
    text(20).map((value) => ({ ai: "10", value })),
    text(20).map((value) => ({ ai: "21", value })),
    text(30).map((value) => ({ ai: "240", value })),
    digitsOf(6).map((value) => ({ ai: "3103", value })),
    text(30).map((value) => ({ ai: "8004", value })),
    digitsOf(4).map((value) => ({ ai: "30", value })),
    digitsOf(12).map((digits) => ({ ai: "414", value: digits + checkDigitOf(digits) })),
  );
  const chosen = known.chain((all) => fc.shuffledSubarray([...all], { minLength: 1 }));

  it("gives back every element, in any order, from the scanned and from the printed form", () => {
    fc.assert(
      fc.property(chosen, (elements) => {
        const scanned = answerOf(read(buildElementString(elements)));
        expect(scanned.elements.map(({ ai, raw }) => ({ ai, value: raw }))).toEqual(elements);
        const printed = answerOf(read(elements.map(({ ai, value }) => `(${ai})${value}`).join("")));
        expect(printed.elements).toEqual(scanned.elements);
      }),
      { numRuns: 300 },
    );
  });

  it("answers or gives a reason, whatever it is given", () => {
    const junk = fc.oneof(
      fc.string(),
      fc.string({ unit: "binary" }),
      fc.stringMatching(/^[0-9()|A-C\]]{0,60}$/).map((text) => text.replaceAll("|", GS)),
    );
    fc.assert(
      fc.property(junk, (given) => {
        const answer = read(given);
        if (answer.ok) expect(answer.value.elements.length).toBeGreaterThan(0);
        else refusalOf(answer);
      }),
      { numRuns: 1000 },
    );
  });

  it("reads a thousand hostile characters in no time", () => {
    expect(refusalOf(read(`10${"17270228".repeat(500)}`))).toBe("wrong-length");
    expect(answerOf(read(`10A${GS}89${"17270228".repeat(5000)}`)).suspicious).toEqual([]);
    expect(refusalOf(read("(".repeat(5000)))).toBe("not-an-element-string");
  });
});

describe("dates in codes", () => {
  it.each([
    { code: "17280200", is: "2028-02-29" },
    { code: "17271200", is: "2027-12-31" },
    { code: "17270228", is: "2027-02-28" },
    { code: "17760101", is: "2076-01-01" },
    { code: "17770101", is: "1977-01-01" },
    { code: "11991231", is: "1999-12-31" },
    { code: "7003" + "2703141530", is: "2027-03-14T15:30" },
    { code: "8008" + "27031415", is: "2027-03-14T15:00" },
    { code: "8008" + "270314153045", is: "2027-03-14T15:30:45" },
    { code: "7007" + "270314270320", is: "2027-03-14/2027-03-20" },
    { code: "7007" + "270314", is: "2027-03-14" },
    { code: "7011" + "270314", is: "2027-03-14" },
  ])("$code is $is", ({ code, is }) => {
    expect(Object.values(fields(code))).toEqual([is]);
  });

  it.each([
    "17270230",
    "17271301",
    "17270001",
    "17270432",
    "17270229",
    "7003" + "2703142430",
    "7003" + "2703001530",
    "8008" + "270314153",
    "7007" + "270320270314",
    "7007" + "2703202",
  ])("%s is refused: the calendar has no such day", (code) => {
    expect(refusalOf(read(code))).toBe("not-a-date");
  });

  it("names the day it refuses", () => {
    const answer = read("17270230");
    expect("message" in answer && answer.message).toContain("year 27, month 02, day 30");
  });

  it("turns over with the day of reading", () => {
    const seen = (date: string) => fieldsOf(answerOf(readElementString("17500101", localDate(date))))["17"];
    expect(seen("1999-12-31")).toBe("1950-01-01");
    expect(seen("2000-01-01")).toBe("2050-01-01");
  });
});

describe("values and their identifiers", () => {
  it("reads measures with their decimal point", () => {
    expect(fields("3103001250")).toEqual({ 3103: "1.250" });
    expect(fields("3100001250")).toEqual({ 3100: "1250" });
    expect(fields("3106000001")).toEqual({ 3106: "0.000001" });
    expect(fields(`392212345${GS}10A`)).toEqual({ 3922: "123.45", 10: "A" });
  });

  it("checks the digit of every key that has one", () => {
    for (const [ai, rest] of [
      ["00", ""],
      ["02", ""],
      ["253", "X1"],
      ["402", ""],
      ["414", ""],
      ["8003", "S1"],
      ["8018", ""],
      ["8006", "0102"],
    ] as const) {
      const length = applicationIdentifier(ai)?.checked ?? 0;
      const digits = "9".repeat(length - 1);
      const right = checkDigitOf(digits);
      expect(read(`${ai}${digits}${right}${rest}`).ok).toBe(true);
      expect(refusalOf(read(`${ai}${digits}${(Number(right) + 1) % 10}${rest}`))).toBe("check-digit");
    }
  });

  it("refuses a piece beyond its total", () => {
    expect(refusalOf(read("8006095060001343520302"))).toBe("piece-of-total");
    expect(refusalOf(read("8006095060001343520002"))).toBe("piece-of-total");
  });

  it("refuses one identifier with two values, and takes a repetition once", () => {
    expect(refusalOf(read(`10A${GS}10B`))).toBe("conflicting-values");
    expect(fields(`10A${GS}17270228${GS}10A`)).toEqual({ 10: "A", 17: "2027-02-28" });
  });

  it.each([
    { text: "", why: "empty" },
    { text: GS + GS, why: "empty" },
    { text: "]C1", why: "empty" },
    { text: "]E05012345678900", why: "not-an-element-string" },
    { text: "5012345678900", why: "not-an-element-string" },
    { text: "hello", why: "not-an-element-string" },
    { text: "(1)234", why: "not-an-element-string" },
    { text: "(01)0950600013435", why: "wrong-length" },
    { text: "010950600013435", why: "wrong-length" },
    { text: "10", why: "wrong-length" },
    { text: `1127022${GS}10A`, why: "wrong-length" },
    { text: "421840ABCDEFÄHI", why: "wrong-characters" },
    { text: "421840ABCDEFGHÄ", why: "wrong-characters" },
    { text: "4218X0ABC", why: "wrong-characters" },
    { text: "10A B", why: "wrong-characters" },
    { text: "10Ä", why: "wrong-characters" },
    { text: "0109506000I34352", why: "wrong-characters" },
  ])("refuses $text: $why", ({ text, why }) => {
    expect(refusalOf(read(text))).toBe(why);
  });

  it("is not suspicious of an ordinary lot, nor of an expiry that is there already", () => {
    for (const lot of ["AB1", "2026-11", "L17", "172702", "B20261125"]) {
      expect(answerOf(read(`17270228${"10"}${lot}`)).suspicious).toEqual([]);
    }
    expect(answerOf(read("17270228" + "10AB117270228")).suspicious).toEqual([]);
  });

  it("suspects also a lot that a separator closes too late", () => {
    expect(answerOf(read(`10AB117270228${GS}21S1`)).suspicious).toHaveLength(1);
    expect(answerOf(read("10AB1" + "17270228" + "21S1")).suspicious).toHaveLength(1);
    expect(answerOf(read("(10)AB117270228")).suspicious).toEqual([]);
  });

  it("has identifiers as long as their first two digits say, and fixed ones as long as their format", () => {
    for (let number = 0; number < 10_000; number += 1) {
      for (const ai of [
        String(number).padStart(2, "0"),
        String(number).padStart(3, "0"),
        String(number).padStart(4, "0"),
      ]) {
        const known = applicationIdentifier(ai);
        if (!known) continue;
        expect(identifierLength(ai.slice(0, 2))).toBe(ai.length);
        const whole = predefinedLength(ai.slice(0, 2));
        if (whole !== null) expect(known.format).toBe(`n${whole - ai.length}`);
      }
    }
  });
});
