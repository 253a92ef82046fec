import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SettingValue } from "@/lib/domain/evidence";
import { naturalOrder } from "@/lib/domain/natural-order";
import { fitsYoke, PIN_INDEX, pinIndexText } from "@/lib/domain/pin-index";
import type { Setting } from "@/lib/domain/rule";
import { reserveOxygenLow } from "@/lib/domain/rules/reserve-oxygen/reserve-oxygen-low";
import { resolved, sameKind } from "@/lib/domain/rules/settings";
import { GASES } from "@/lib/domain/vocabulary";
import { itemsInWords, listed, lowerFirst, numeral, said, saidAnswer, saidDate } from "@/lib/domain/wording";
import { quantity } from "@/lib/units/quantity";
import { localDate } from "@/lib/units/time";
import { readyRoom } from "@/tests/support/ready-room";

describe("the pin index", () => {
  // Positions as given on the public page "Pin Index Safety System" (Wikipedia), after ISO 407 and CGA V-1.
  it("has the published positions", () => {
    expect(PIN_INDEX).toEqual({ oxygen: [2, 5], "nitrous-oxide": [3, 5], air: [1, 5] });
  });

  it("fits a cylinder to a yoke of its own gas and to no other", () => {
    for (const cylinder of GASES) {
      for (const yoke of GASES) expect(fitsYoke(cylinder, yoke).ok).toBe(cylinder === yoke);
    }
    expect(new Set(GASES.map(pinIndexText)).size).toBe(GASES.length);
  });

  it("names both positions when it refuses", () => {
    expect(fitsYoke("oxygen", "air")).toEqual({
      ok: false,
      refusal: "does-not-fit",
      field: "gas",
      message: "Oxygen cylinder (pin index 2-5) does not fit an air yoke (pin index 1-5). Choose a cylinder of air.",
    });
    expect(fitsYoke("nitrous-oxide", "oxygen")).toMatchObject({
      message: expect.stringContaining("(pin index 3-5) does not fit an oxygen yoke (pin index 2-5)"),
    });
    expect(fitsYoke("air", "nitrous-oxide")).toMatchObject({
      message: expect.stringContaining("does not fit a nitrous oxide yoke"),
    });
  });
});

describe("the order of room names", () => {
  it("is the one people read", () => {
    const names = ["OR 10", "or 2", "A10", "A2", "A1", "B", "OR 1", "Cath 1", "A", "A1b"];
    expect([...names].sort(naturalOrder)).toEqual([
      "A",
      "A1",
      "A1b",
      "A2",
      "A10",
      "B",
      "Cath 1",
      "OR 1",
      "or 2",
      "OR 10",
    ]);
    expect([...names].reverse().sort(naturalOrder)).toEqual([...names].sort(naturalOrder));
  });

  it("is an order: the same both ways round, and never circular", () => {
    const name = fc.stringMatching(/^[A-Ca-c]{0,2}[0-9]{0,3}[a-b]?$/);
    fc.assert(
      fc.property(name, name, name, (a, b, c) => {
        expect(Math.sign(naturalOrder(a, b))).toBe(-Math.sign(naturalOrder(b, a)) || 0);
        if (naturalOrder(a, b) <= 0 && naturalOrder(b, c) <= 0) expect(naturalOrder(a, c)).toBeLessThanOrEqual(0);
        expect(naturalOrder(a, b) === 0).toBe(a === b);
      }),
    );
  });
});

describe("numbers and lists as they are said", () => {
  it.each([
    [0, "0"],
    [640, "640"],
    [1955, "1,955"],
    [1_234_567.891, "1,234,567.89"],
    [21.04, "21.04"],
    [88.4, "88.4"],
    [20.999, "21"],
    [-5, "−5"],
    [-0.001, "0"],
  ])("%d is %s", (value, text) => {
    expect(numeral(value)).toBe(text);
  });

  it("says units, dates and answers", () => {
    expect(said(quantity(30, "cmH2O"))).toBe("30 cmH₂O");
    expect(said(quantity(1000, "psi"))).toBe("1,000 psi");
    expect(saidDate(localDate("2026-11-05"))).toBe("5 Nov 2026");
    expect(saidAnswer({ kind: "gauge", reading: quantity(1955, "psi"), openWhenRead: true, shutAgain: true })).toBe(
      "1,955 psi, read with the valve open",
    );
    expect(saidAnswer({ kind: "gauge", reading: quantity(1955, "psi"), openWhenRead: true, shutAgain: false })).toBe(
      "1,955 psi, read with the valve open, left open",
    );
    expect(saidAnswer({ kind: "gauge", reading: quantity(1955, "psi"), openWhenRead: false, shutAgain: false })).toBe(
      "1,955 psi, read with the valve shut",
    );
    expect(saidAnswer({ kind: "timed", seconds: 14, held: true })).toBe("held 14 s");
    expect(saidAnswer({ kind: "timed", seconds: 6, held: false })).toBe("did not hold, 6 s");
    expect(saidAnswer({ kind: "choice", choice: "two-thirds" })).toBe("two thirds");
    expect(saidAnswer({ kind: "pass", passed: false })).toBe("fail");
    expect(saidAnswer({ kind: "number", reading: quantity(52, "psi") })).toBe("52 psi");
  });

  it("cuts a long list and says how much it cut", () => {
    expect(listed([])).toBe("");
    expect(listed(["a"])).toBe("a");
    expect(listed(["a", "b"])).toBe("a and b");
    expect(listed(["a", "b", "c", "d"])).toBe("a, b, c and d");
    expect(listed(["a", "b", "c", "d", "e"])).toBe("a, b, c and 2 more");
    expect(lowerFirst("APL valve")).toBe("APL valve");
    expect(lowerFirst("Suction")).toBe("suction");
  });

  it("groups items by what they are about", () => {
    const { workstation } = readyRoom();
    const cylinder = { kind: "cylinder", id: "cylinder-o2" } as const;
    const machine = { kind: "workstation", id: "workstation-1" } as const;
    expect(
      itemsInWords(
        [
          { item: "cylinder-gauge", subject: cylinder },
          { item: "breathing-leak", subject: machine },
          { item: "yoke-leak", subject: cylinder },
        ],
        workstation,
      ),
    ).toBe("cylinder gauge and yoke leak (oxygen, yoke 1); breathing-system leak");
    const seven = (["apl", "valves", "circuit", "ventilator", "mains-power", "battery", "final-state"] as const).map(
      (item) => ({ item, subject: machine }),
    );
    expect(itemsInWords(seven, workstation)).toBe(
      "APL valve, unidirectional valves, circuit, mask and bag and ventilator; and 3 more",
    );
  });
});

describe("settings of a site", () => {
  const place = readyRoom("US");
  const withSetting = (values: Record<string, unknown>, on = true) =>
    resolved(reserveOxygenLow, {
      ...place,
      settings: { "reserve-oxygen-low": { on, values: values as never, version: 7, citation: "policy 3" } },
    });

  it("are the shipped ones of the scheme where the site has none", () => {
    expect(resolved(reserveOxygenLow, place)).toMatchObject({
      on: true,
      version: 0,
      values: { atLeast: quantity(1000, "psi") },
    });
    expect(resolved(reserveOxygenLow, readyRoom("ISO"))).toMatchObject({ values: { atLeast: quantity(50, "%") } });
  });

  it("are the site's own where it has them, with version and citation", () => {
    expect(withSetting({ atLeast: quantity(600, "psi") })).toMatchObject({
      on: true,
      version: 7,
      citation: "policy 3",
      values: { atLeast: quantity(600, "psi") },
    });
    expect(withSetting({ atLeast: quantity(60, "%") }).values.atLeast).toEqual(quantity(60, "%"));
    expect(withSetting({}, false).on).toBe(false);
  });

  it.each([
    { atLeast: quantity(5, "L/min") },
    { atLeast: 1000 },
    { atLeast: "1000 psi" },
    { other: quantity(1, "psi") },
  ])("keep the shipped limit against %j", (values) => {
    expect(withSetting(values)).toMatchObject({ values: resolved(reserveOxygenLow, place).values });
  });

  it("take a value of the same kind only", () => {
    const of = (shipped: SettingValue, iso?: SettingValue): Setting => ({
      default: shipped,
      citation: "",
      ...(iso === undefined ? {} : { iso: { default: iso, citation: "" } }),
    });
    expect(sameKind(quantity(70, "bar"), of(quantity(1000, "psi")))).toBe(true);
    expect(sameKind(true, of(false))).toBe(true);
    expect(sameKind("03:00", of("04:00"))).toBe(true);
    expect(sameKind(quantity(1, "s"), of(quantity(1, "psi")))).toBe(false);
    expect(sameKind(1, of(true))).toBe(false);
    expect(sameKind(quantity(50, "%"), of(quantity(1000, "psi"), quantity(50, "%")))).toBe(true);
    expect(sameKind(quantity(50, "%"), of(quantity(1000, "psi"), quantity(70, "bar")))).toBe(false);
    expect(sameKind(quantity(3, "psi"), of(quantity(1, "%")))).toBe(false);
  });
});
