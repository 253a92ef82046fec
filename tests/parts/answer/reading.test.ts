import { describe, expect, it } from "vitest";
import { grouped, pressKey, readReading, type Scale } from "@/app/_parts/answer/reading";

const PSI: Scale = { unit: "psi", least: 0, most: 4500, decimals: 0 };
const PERCENT: Scale = { unit: "%", least: 0, most: 100, decimals: 1 };

const message = (text: string, scale: Scale) => {
  const read = readReading(text, scale);
  return read.ok ? "taken" : read.message;
};

describe("a reading that somebody typed", () => {
  it.each([
    ["1955", PSI, 1955],
    ["0", PSI, 0],
    ["4500", PSI, 4500],
    ["20.9", PERCENT, 20.9],
    [" 21 ", PERCENT, 21],
    ["21.", PERCENT, 21],
  ] as const)("takes %j", (text, scale, value) => {
    expect(readReading(text, scale)).toEqual({ ok: true, value });
  });

  it("refuses a decimal comma by name, and says what to type", () => {
    expect(message("20,9", PERCENT)).toBe("“20,9” has a decimal comma. Type a decimal point: 20.9.");
  });

  it("never reads a thousands comma as a decimal one or as nothing", () => {
    expect(message("1,955", PSI)).toContain("decimal comma");
    expect(message("1,955,000", PSI)).toContain("is not a number");
  });

  it.each([
    ["20000", PSI, "20,000 psi cannot be right. This reading is between 0 and 4,500 psi."],
    ["-5", PSI, "“-5” is below zero. This reading is between 0 and 4,500 psi."],
    ["full", PSI, "“full” is not a number. Type figures only, such as 2250."],
    ["1e3", PSI, "“1e3” is not a number. Type figures only, such as 2250."],
    ["1955.5", PSI, "“1955.5” has too many decimals. Type whole psi."],
    ["20.95", PERCENT, "“20.95” has too many decimals. One decimal is enough."],
    ["", PSI, "Enter the reading in psi."],
  ] as const)("refuses %j and says what would be right", (text, scale, said) => {
    expect(message(text, scale)).toBe(said);
  });
});

describe("figures for reading", () => {
  it.each([
    ["1955", "1,955"],
    ["955", "955"],
    ["12345.6", "12,345.6"],
    ["20,9", "20,9"],
    ["", ""],
  ])("shows %j as %j", (text, shown) => {
    expect(grouped(text)).toBe(shown);
  });
});

describe("the number pad", () => {
  const press = (...keys: string[]) => keys.reduce(pressKey, "");

  it("adds figures and takes the last one back", () => {
    expect(press("1", "9", "5", "5")).toBe("1955");
    expect(press("1", "9", "back", "8")).toBe("18");
    expect(press("back")).toBe("");
  });

  it("keeps one point, and puts a zero before a leading one", () => {
    expect(press(".", "5")).toBe("0.5");
    expect(press("2", ".", "0", ".", "9")).toBe("2.09");
  });

  it("lets no zero lead a number, and no number run off the plate", () => {
    expect(press("0", "0", "7")).toBe("7");
    expect(press(..."123456789")).toBe("1234567");
  });
});
