import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { HIBC_ALPHABET, hibcCheckCharacter } from "@/lib/calculations/hibc/check-character";
import { type HibcReading, linksTo, readHibc } from "@/lib/calculations/hibc/hibc-string";
import { localDate } from "@/lib/units/time";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const SEEN_ON = localDate("2026-11-25");
const closed = (text: string) => `${text}${hibcCheckCharacter(text)}`;
const read = (text: string) => readHibc(closed(text), SEEN_ON);
/** A secondary string with the link character L. */
const secondary = (data: string) => read(`+${data}L`);

describe("the modulo 43 check character", () => {
  it("finds every single character that is wrong", () => {
    fc.assert(
      fc.property(
        fc.stringMatching(/^[A-Z][A-Z0-9]{5,20}\d$/),
        fc.nat(30),
        fc.integer({ min: 1, max: 42 }),
        (body, at, by) => {
          const code = closed(`+${body}`);
          const place = 1 + (at % (code.length - 1));
          const value = (HIBC_ALPHABET.indexOf(code[place] ?? "") + by) % HIBC_ALPHABET.length;
          expect(readHibc(code.slice(0, place) + HIBC_ALPHABET[value] + code.slice(place + 1), SEEN_ON).ok).toBe(false);
        },
      ),
    );
  });

  it("is none where a character is not of the alphabet", () => {
    expect(hibcCheckCharacter("+a")).toBeNull();
  });
});

describe("secondary strings", () => {
  const day = (date: string) => ({ date, precision: "day", hour: null });
  it.each([
    { data: "26330LOT1", part: { expiry: day("2026-11-26"), lot: "LOT1", serial: null, quantity: null } },
    { data: "26330", part: { expiry: day("2026-11-26"), lot: null } },
    { data: "$LOT1", part: { expiry: null, lot: "LOT1", serial: null } },
    { data: "$+SER1", part: { expiry: null, lot: null, serial: "SER1" } },
    { data: "$$0227LOT1", part: { expiry: { date: "2027-02-28", precision: "month", hour: null }, lot: "LOT1" } },
    { data: "$$1227LOT1", part: { expiry: { date: "2027-12-31", precision: "month", hour: null }, lot: "LOT1" } },
    { data: "$$2022927LOT1", part: null },
    { data: "$$2022828LOT1", part: { expiry: day("2028-02-28"), lot: "LOT1" } },
    { data: "$$3280229LOT1", part: { expiry: day("2028-02-29"), lot: "LOT1" } },
    { data: "$$428022923LOT1", part: { expiry: { date: "2028-02-29", precision: "hour", hour: 23 }, lot: "LOT1" } },
    { data: "$$428022924LOT1", part: null },
    { data: "$$528366LOT1", part: { expiry: day("2028-12-31"), lot: "LOT1" } },
    { data: "$$527366LOT1", part: null },
    { data: "$$527000LOT1", part: null },
    { data: "$$62806007LOT1", part: { expiry: { date: "2028-02-29", precision: "hour", hour: 7 }, lot: "LOT1" } },
    { data: "$$7LOT1", part: { expiry: null, lot: "LOT1" } },
    { data: "$$805", part: { quantity: 5, expiry: null, lot: null } },
    {
      data: "$$8050227LOT1",
      part: { quantity: 5, expiry: { date: "2027-02-28", precision: "month", hour: null }, lot: "LOT1" },
    },
    { data: "$$9000123280229LOT1", part: { quantity: 12, expiry: day("2028-02-29"), lot: "LOT1" } },
    { data: "$$9000127LOT1", part: { quantity: 12, expiry: null, lot: "LOT1" } },
    { data: "$$+3280229SER1", part: { expiry: day("2028-02-29"), lot: null, serial: "SER1" } },
    { data: "$$+7SER1", part: { expiry: null, serial: "SER1" } },
    { data: "$$1327LOT1", part: null },
  ])("+$data reads as $part", ({ data, part }) => {
    const answer = secondary(data);
    if (part) expect(answerOf(answer)).toMatchObject({ structure: "secondary", link: "L", ...part });
    else expect(refusalOf(answer)).toBe("not-a-date");
  });

  it.each([
    { data: `$${"L".repeat(19)}`, why: "wrong-length" },
    { data: "$$8X", why: "wrong-length" },
    { data: "$$X", why: "not-a-structure" },
    { data: "$$", why: "not-a-structure" },
    { data: "1234", why: "not-a-structure" },
    { data: "$$3AB0229", why: "not-a-date" },
  ])("+$data is refused: $why", ({ data, why }) => {
    expect(refusalOf(secondary(data))).toBe(why);
  });

  it("belong to the primary whose check character is their link", () => {
    const primary = answerOf(read("+A99912345"));
    const own = answerOf(read(`+$LOT1${primary.check}`));
    const other = answerOf(secondary("$LOT1"));
    expect(linksTo(own, primary)).toBe(true);
    expect(linksTo(other, primary)).toBe(false);
    expect(linksTo(primary, own)).toBe(false);
  });
});

describe("combined strings and their parts", () => {
  const combined = (text: string) => answerOf(read(text)) as Extract<HibcReading, { structure: "combined" }>;

  it("takes from a supplement what the secondary part leaves out", () => {
    expect(combined("+A99912345/$LOT1/S77/Q12/14D20270228/16D20250101/ZZ9")).toMatchObject({
      lot: "LOT1",
      serial: "77",
      quantity: 12,
      expiry: { date: "2027-02-28", precision: "day" },
      manufactured: "2025-01-01",
      other: ["ZZ9"],
    });
  });

  it("refuses a supplement that says otherwise, and one that is no date", () => {
    expect(refusalOf(read("+A99912345/$$3270228LOT1/14D20270301"))).toBe("conflicting-values");
    expect(read("+A99912345/$$3270228LOT1/14D20270228").ok).toBe(true);
    expect(refusalOf(read("+A99912345/$+S1/SS2"))).toBe("conflicting-values");
    expect(refusalOf(read("+A99912345/$LOT1/16D20270230"))).toBe("not-a-date");
    expect(refusalOf(read("+A99912345/$LOT1/14D2702"))).toBe("not-a-date");
  });

  it("reads the stars of the print away, and a space or slash as check character", () => {
    expect(answerOf(readHibc("*+BLUEUNICORN7N*", SEEN_ON))).toMatchObject({ labeler: "BLUE", product: "UNICORN" });
    const ending = (character: string) => {
      const bodies = Array.from(
        { length: 36 ** 2 },
        (_, n) => `+A99${HIBC_ALPHABET[n % 36]}${HIBC_ALPHABET[Math.floor(n / 36)]}1`,
      );
      return bodies.find((body) => hibcCheckCharacter(body) === character) ?? "";
    };
    for (const character of [" ", "/", "+", "%"]) {
      expect(answerOf(readHibc(`${ending(character)}${character}`, SEEN_ON))).toMatchObject({
        structure: "primary",
        check: character,
      });
    }
  });

  it.each([
    { text: "", why: "not-a-structure" },
    { text: "A123BJC5D6E71G", why: "not-a-structure" },
    { text: "+BLUEUNICORN7M", why: "check-character" },
    { text: "+blueunicorn7N", why: "wrong-characters" },
    { text: closed("+AB-91"), why: "not-a-structure" },
    { text: closed(`+A123${"B".repeat(19)}1`), why: "not-a-structure" },
    { text: closed("+A1231"), why: "not-a-structure" },
    { text: closed("+A123BCDE"), why: "not-a-structure" },
  ])("refuses $text: $why", ({ text, why }) => {
    expect(refusalOf(readHibc(text, SEEN_ON))).toBe(why);
  });

  it("takes years as 2000 to 2099 where the day of reading is not told", () => {
    expect(answerOf(readHibc(closed("+$$3990101L1L"), null))).toMatchObject({ expiry: { date: "2099-01-01" } });
    expect(answerOf(readHibc(closed("+$$3990101L1L"), SEEN_ON))).toMatchObject({ expiry: { date: "1999-01-01" } });
  });

  it("answers or gives a reason, whatever it is given", () => {
    const junk = fc.oneof(fc.string(), fc.stringMatching(/^\+[A-Z0-9$+/]{2,30}$/).map(closed));
    fc.assert(
      fc.property(junk, (given) => {
        const answer = readHibc(given, SEEN_ON);
        if (!answer.ok) refusalOf(answer);
      }),
      { numRuns: 1000 },
    );
  });
});
