import { describe, expect, it } from "vitest";
import { gs1CheckDigit } from "@/lib/calculations/gs1/check-digit";
import { fieldsOf, readElementString } from "@/lib/calculations/gs1/element-string";
import { hibcCheckCharacter } from "@/lib/calculations/hibc/check-character";
import { readHibc } from "@/lib/calculations/hibc/hibc-string";
import { PIN_GASES, pinIndex } from "@/lib/calculations/pin-index";
import { localDate } from "@/lib/units/time";
import { answerOf, refusalOf } from "@/tests/support/calculated";

const SEEN_ON = localDate("2026-11-25");
const read = (text: string) => readElementString(text, SEEN_ON);
const fields = (text: string) => fieldsOf(answerOf(read(text)));

const GS = "\u001d";

describe("published GS1 check digits", () => {
  it.each([
    { source: "GS1 India, check-digit page", digits: "890400021003", check: "7" },
    { source: "GS1 UK, check-digit page: an exact multiple of ten", digits: "501234567890", check: "0" },
    { source: "GS1 check-digit page (from memory)", digits: "629104150021", check: "3" },
    { source: "sample in public barcode documentation", digits: "0952123454321", check: "3" },
    { source: "GS1 sample of device identification (from memory)", digits: "0950600013435", check: "2" },
    { source: "GS1, UPC sample (from memory)", digits: "03600029145", check: "2" },
    { source: "the same with two zeros before it: zeros change nothing", digits: "0003600029145", check: "2" },
    { source: "computed, SSCC", digits: "10614141123456789", check: "7" },
  ])("$digits is closed by $check ($source)", ({ digits, check }) => {
    expect(answerOf(gs1CheckDigit(digits))).toBe(check);
  });
});

describe("published rules of GS1 element strings", () => {
  // Public barcode documentation: day 00 is the last day of the month.
  it("reads expiry 27-02-00 as 28 February 2027", () => {
    expect(fields("0109506000134352" + "17270200" + "10AB1")).toEqual({
      "01": "09506000134352",
      17: "2027-02-28",
      10: "AB1",
    });
  });

  // A value of open length is closed by FNC1, which scanners send as ASCII 29.
  it("says that a lot may have swallowed an expiry when the separator is lost", () => {
    const lost = answerOf(read("0109506000134352" + "10AB117270228"));
    expect(fieldsOf(lost)).toEqual({ "01": "09506000134352", 10: "AB117270228" });
    expect(lost.suspicious).toEqual([expect.stringContaining('its end, "17270228"')]);
    const kept = answerOf(read(`010950600013435210AB1${GS}17270228`));
    expect(fieldsOf(kept)).toMatchObject({ 10: "AB1", 17: "2027-02-28" });
    expect(kept.suspicious).toEqual([]);
  });

  it("reads what is printed with brackets like what is scanned", () => {
    expect(fields("(01)09506000134352(21)SN1")).toEqual(fields("010950600013435221SN1"));
  });

  it.each(["]C1", "]d2", "]Q3", "]e0", GS, `]C1${GS}`])("takes %j off the front", (front) => {
    expect(fields(`${front}010950600013435221SN1`)).toEqual({ "01": "09506000134352", 21: "SN1" });
  });

  it("keeps an identifier that it does not know up to the separator and reads on", () => {
    const text = `0109506000134352${"9912X"}${GS}89Q-7${GS}21SN1`;
    expect(fields(text)).toEqual({ "01": "09506000134352", 99: "12X", 89: "Q-7", 21: "SN1" });
    const unknown = answerOf(read(text)).elements.filter(({ known }) => !known);
    expect(unknown.map(({ ai }) => ai)).toEqual(["89"]);
  });

  it("takes a lot of 20 characters and refuses one of 21", () => {
    expect(fields(`010950600013435210${"A".repeat(20)}`)["10"]).toHaveLength(20);
    expect(refusalOf(read(`010950600013435210${"A".repeat(21)}`))).toBe("wrong-length");
  });

  // GS1 General Specifications (from memory): 8006 holds GTIN, piece and total.
  it("reads piece 01 of 02 of GTIN 09506000134352", () => {
    const [piece] = answerOf(read("8006095060001343520102")).elements;
    expect(piece?.parts).toEqual({ gtin: "09506000134352", piece: "01", total: "02" });
  });
});

describe("published HIBC strings", () => {
  it.each([
    { source: "HIBC documentation in an open barcode library", text: "+BLUEUNICORN7", check: "N" },
    { source: "sample of the HIBC standard (from memory)", text: "+A123BJC5D6E71", check: "G" },
    { source: "computed", text: "+A9991234571", check: "F" },
    { source: "sample of the HIBC standard, combined (from memory)", text: "+A99912345/$$52001510X3", check: "3" },
    {
      source: "sample of the HIBC standard with supplements (from memory)",
      text: "+A99912345/$$52001510X3/16D20111212/S77DEFG45",
      check: "7",
    },
  ])("$text is closed by $check ($source)", ({ text, check }) => {
    expect(hibcCheckCharacter(text)).toBe(check);
    expect(readHibc(text + check, SEEN_ON).ok).toBe(true);
  });

  it("reads the standard's combined sample", () => {
    expect(answerOf(readHibc("+A99912345/$$52001510X3/16D20111212/S77DEFG457", SEEN_ON))).toEqual({
      structure: "combined",
      check: "7",
      labeler: "A999",
      product: "1234",
      unitOfMeasure: 5,
      quantity: null,
      expiry: { date: "2020-01-15", precision: "day", hour: null },
      lot: "10X3",
      serial: "77DEFG45",
      manufactured: "2011-12-12",
      other: [],
    });
  });
});

// Source: ISO 407 and CGA V-1 by a public page (secondary).
describe("pin index positions", () => {
  it("are the published ones", () => {
    expect(Object.fromEntries(PIN_GASES.map((gas) => [gas, answerOf(pinIndex(gas))]))).toEqual({
      oxygen: "2-5",
      "nitrous-oxide": "3-5",
      air: "1-5",
      "carbon-dioxide": "1-6",
      "oxygen-carbon-dioxide": "2-6",
      "helium-oxygen": "2-4",
      nitrogen: "1-4",
      "oxygen-nitrous-oxide": "7",
    });
    expect(refusalOf(pinIndex("xenon"))).toBe("unknown-gas");
  });
});
