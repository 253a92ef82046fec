import { describe, expect, it } from "vitest";
import { clockText, dateText, minutesText, numberText, quantityText, shortName, whenText } from "@/app/_parts/format";
import { local, ZONE } from "./board-rows";

const spaced = (text: string) => text.replaceAll("\u00a0", " ");

describe("numbers as people read them", () => {
  it.each([
    [1955, "1,955"],
    [20.94, "20.9"],
    [0, "0"],
    [-3, "-3"],
  ])("%d is %s", (value, text) => expect(numberText(value)).toBe(text));

  it("keeps a number and its unit on one line", () => {
    expect(quantityText({ value: 1955, unit: "psi" })).toBe("1,955\u00a0psi");
    expect(spaced(quantityText({ value: 30, unit: "cmH2O" }))).toBe("30 cmH₂O");
  });

  it.each([
    [84.9, "84 min"],
    [119, "119 min"],
    [120, "2 h 00 min"],
    [365, "6 h 05 min"],
    [-2, "0 min"],
  ])("%d minutes are %s: never more than there is", (minutes, text) => expect(spaced(minutesText(minutes))).toBe(text));
});

describe("moments on the facility's clock", () => {
  it("is the facility's time, whatever the device's zone", () => {
    expect(clockText("2026-12-01T12:14:00Z", ZONE)).toBe("06:14");
    expect(clockText("2026-12-01T12:14:00Z", "Europe/London")).toBe("12:14");
  });

  it("names the day only when it is another one there", () => {
    expect(whenText(local("05:41"), local("06:14"), ZONE)).toBe("05:41");
    // 03:00Z on the first is still the evening of 30 November in Chicago.
    expect(whenText("2026-12-01T03:00:00Z", local("06:14"), ZONE)).toBe("Mon 30 Nov 21:00");
    expect(whenText("2025-11-30T15:00:00Z", local("06:14"), ZONE)).toBe("30 Nov 2025 09:00");
  });

  it("writes dates that no country reads the wrong way round", () => expect(dateText("2027-02-03")).toBe("3 Feb 2027"));
});

describe("short names", () => {
  it.each([
    ["Rosa Osei", "R. Osei"],
    ["Élise de la Tour", "É. de la Tour"],
    ["R. Osei", "R. Osei"],
    ["Rosa", "Rosa"],
  ])("%s is %s", (name, short) => expect(shortName(name)).toBe(short));
});
