import { describe, expect, it } from "vitest";
import { contentsText, worthText } from "@/lib/domain/contents";
import { gaugeChange } from "@/lib/domain/gauge-change";
import { gaugeWorth } from "@/lib/domain/gauge-worth";
import { withValues } from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { instantOf } from "@/lib/units/time";
import { cylinderOf, readyRoom } from "@/tests/support/ready-room";

const us = readyRoom("US");
const iso = readyRoom("ISO");
const psi = (value: number) => quantity(value, "psi");

/** 4.8 L at 21.1 C by the equation of Schmidt and Wagner 1985: 660.2 L at 1,900 psi, 167.1 L at 500 psi; 15 C in 4.68 L: 684 L in all at 137 bar, of which 4.7 L stay. */
describe("what a gauge reading of a fitted cylinder is worth", () => {
  it.each([
    [1900, 660.2],
    [500, 167.1],
    [200, 66.0],
  ])("%i psi of oxygen in a US E cylinder is %d L, within its two ends", (reading, litres) => {
    const cylinder = { ...cylinderOf(us, "oxygen"), waterCapacityL: 4.8 };
    const worth = gaugeWorth(psi(reading), cylinder, us);
    if (worth.kind !== "litres") throw new Error(worth.kind);
    expect(Math.abs(worth.litres - litres)).toBeLessThan(0.06);
    expect(worth.low).toBeLessThan(litres);
    expect(worth.high).toBeGreaterThan(litres);
    expect(contentsText(psi(reading), cylinder, us)).toBe(`, ${Math.round(litres)} L`);
  });

  it("counts an ISO cylinder at 15 C, and follows the temperature that the site says", () => {
    const cylinder = { ...cylinderOf(iso, "oxygen"), waterCapacityL: 4.68 };
    const cold = withValues(iso, "endurance", { gasTemperature: quantity(15, "C") });
    const worth = gaugeWorth(quantity(137, "bar"), cylinder, cold);
    expect(worth.kind === "litres" && Math.abs(worth.litres - 679.7)).toBeLessThan(1);
    const warm = gaugeWorth(quantity(137, "bar"), cylinder, iso);
    expect(warm.kind === "litres" && worth.kind === "litres" && warm.litres < worth.litres).toBe(true);
  });

  it("gives a floor and no litres while liquid nitrous oxide remains, and litres once it is gone", () => {
    const cylinder = cylinderOf(us, "nitrous-oxide");
    const full = gaugeWorth(psi(745), cylinder, us);
    expect(full.kind).toBe("at-least");
    expect(worthText(full)).toMatch(/^at least \d+ L: liquid remains/);
    const gas = gaugeWorth(psi(300), cylinder, us);
    expect(gas.kind === "litres" && full.kind === "at-least" && gas.litres < full.litres).toBe(true);
  });

  it("says nothing of a reading that cannot be", () => {
    expect(worthText(gaugeWorth(psi(-3), cylinderOf(us, "oxygen"), us))).toBeNull();
    expect(worthText(gaugeWorth(quantity(3, "L/min"), cylinderOf(us, "oxygen"), us))).toBeNull();
  });
});

describe("what became of the contents between two readings", () => {
  const oxygen = cylinderOf(us, "oxygen");
  const evening = instantOf("2026-03-03T22:00:00Z");
  const morning = instantOf("2026-03-04T12:00:00Z");
  const change = (before: number, now: number, place = us) =>
    gaugeChange({ reading: psi(before), at: evening }, { reading: psi(now), at: morning }, oxygen, place);

  it("is nothing to speak of within what the gauge may be off", () => {
    expect(change(1900, 1900)).toBeNull();
    expect(change(1900, 1880)).toBeNull();
  });

  it("may be a cold night", () => {
    expect(change(1900, 1835)).toMatch(/colder or warmer room/);
  });

  it("is a loss where neither gauge nor temperature explains it", () => {
    expect(change(1900, 1500)).toMatch(
      /^Since 1,900 psi it lost 1\d\d(\.\d)? L, more than gauge and temperature explain \(\d+(\.\d)? L\/h\)/,
    );
  });

  it("is more than there was: another cylinder, or a wrong reading", () => {
    expect(change(1000, 1900)).toMatch(/holds more/);
  });

  it("is called a loss sooner where the rooms keep their temperature", () => {
    expect(change(1900, 1830)).toMatch(/colder or warmer/);
    expect(change(1900, 1830, withValues(us, "endurance", { temperatureSwing: quantity(0, "C") }))).toMatch(/lost/);
  });
});
