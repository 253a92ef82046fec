import { describe, expect, it } from "vitest";
import { siteValueText } from "@/app/set-up/rules/words";

const NO_BREAK = "\u00a0";
const plain = (text: string) => text.replaceAll(NO_BREAK, " ");

describe("a limit, in the unit of the site's gauges", () => {
  it.each([
    [{ value: 1000, unit: "psi" as const }, "bar" as const, "68.9 bar, set as 1,000 psi"],
    [{ value: 80, unit: "bar" as const }, "psi" as const, "1,160.3 psi, set as 80 bar"],
    [{ value: 1000, unit: "psi" as const }, "psi" as const, "1,000 psi"],
    // A breathing system is read in cmH2O everywhere.
    [{ value: 30, unit: "cmH2O" as const }, "bar" as const, "30 cmH₂O"],
    [{ value: 15, unit: "min" as const }, "kPa" as const, "15 min"],
    [true, "psi" as const, "yes"],
  ])("%o at a site in %s", (value, unit, text) => {
    expect(plain(siteValueText(value, unit))).toBe(text);
  });
});
