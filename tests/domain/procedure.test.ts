import { describe, expect, it } from "vitest";
import { ITEM_IDS, type ItemId, itemOf } from "@/lib/domain/items";
import { expandProcedure, recheckItems, taskItems } from "@/lib/domain/procedure/decide";
import type { ProcedureItem } from "@/lib/domain/procedure/model";
import { readyMadeProcedures } from "@/lib/domain/ready-made-procedures/all";
import { ALL_ITEMS } from "@/lib/domain/ready-made-procedures/all-items";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import type { Place } from "@/lib/domain/rule";
import { RULES } from "@/lib/domain/rules/all";
import { withValues, withWorkstation } from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { readyRoom } from "@/tests/support/ready-room";

const us = readyRoom("US");
const iso = readyRoom("ISO");
const itemsAsked = (place: Place, procedure = DAILY_US) =>
  new Set(expandProcedure(procedure, place).map(({ item }) => item));
const asked = (place: Place, item: ItemId, procedure = DAILY_US) =>
  expandProcedure(procedure, place).filter((one) => one.item === item);

describe("the ready-made daily checks", () => {
  it.each([
    { scheme: "US", procedure: DAILY_US, place: us },
    { scheme: "ISO", procedure: DAILY_ISO, place: iso },
  ] as const)("of the $scheme scheme begin with the bag and end with the final state", ({ procedure, place }) => {
    const order = expandProcedure(procedure, place).map(({ item }) => item);
    expect(order[0]).toBe("self-inflating-bag");
    expect(order.at(-1)).toBe("final-state");
    expect(order.indexOf("oxygen-in-air")).toBeLessThan(order.indexOf("low-pressure-leak"));
    expect(order.indexOf("low-pressure-leak")).toBeLessThan(order.indexOf("fresh-gas-hose"));
    expect(order.indexOf("oxygen-in-air")).toBeLessThan(order.indexOf("oxygen-after-flush"));
  });

  it.each(["US", "ISO"] as const)("of the %s scheme ask once for everything, by a key of its own", (scheme) => {
    const questions = expandProcedure(scheme === "US" ? DAILY_US : DAILY_ISO, scheme === "US" ? us : iso);
    expect(new Set(questions.map(({ key }) => key)).size).toBe(questions.length);
    expect(questions.length).toBeGreaterThanOrEqual(20);
    expect(questions.length).toBeLessThanOrEqual(35);
    for (const { key, item, subject } of questions) expect(key).toBe(`${item}:${subject.kind}:${subject.id}`);
  });

  it("starts the self-test early, so that it runs while the rest is looked at", () => {
    const place = withWorkstation(us, ({ model }) => ({
      model: {
        ...model,
        leakTest: "self-test",
        selfTestCovers: ["low-pressure-leak", "breathing-leak", "ventilator", "apl"],
      },
    }));
    const order = expandProcedure(DAILY_US, place).map(({ item }) => item);
    expect(order.indexOf("self-test")).toBeLessThan(order.indexOf("cylinder-gauge"));
    for (const item of ["low-pressure-leak", "breathing-leak", "ventilator", "apl", "fresh-gas-hose"] as const)
      expect(order).not.toContain(item);
  });

  it("comes with the daily check first, for each scheme", () => {
    for (const scheme of ["US", "ISO"] as const) {
      expect(readyMadeProcedures(scheme).map(({ kind }) => kind)).toEqual([
        "daily",
        "each-case",
        "close-out",
        "provider-change",
      ]);
      for (const { citation } of readyMadeProcedures(scheme)) expect(citation).not.toBe("");
    }
  });

  it("asks for every item that a stopping rule of the morning judges", () => {
    const everywhere = new Set([
      ...itemsAsked(us),
      ...itemsAsked(withWorkstation(us, ({ model }) => ({ model: { ...model, selfTestCovers: ["apl"] } }))),
    ]);
    const morning: ItemId[] = [
      "self-inflating-bag",
      "separate-oxygen",
      "cylinder-key",
      "cylinder-gauge",
      "pipeline-pressure",
      "low-pressure-leak",
      "breathing-leak",
      "oxygen-in-air",
      "oxygen-after-flush",
      "low-oxygen-alarm",
      "absorbent-colour",
      "suction",
      "vaporizer-fill",
      "vaporizer-interlock",
      "hypoxic-guard",
      "final-state",
    ];
    for (const item of morning) {
      expect(everywhere, item).toContain(item);
      expect(
        RULES.some(({ items }) => items.includes(item)),
        item,
      ).toBe(true);
    }
  });
});

describe("what is asked depends on what is there", () => {
  it("asks for each cylinder, vaporizer and piped gas by name", () => {
    expect(asked(us, "cylinder-gauge").map(({ title }) => title)).toEqual([
      "Oxygen, yoke 1 (E): open, read, shut",
      "Nitrous oxide, yoke 2 (E): open, read, shut",
    ]);
    expect(asked(us, "pipeline-pressure").map(({ subjectName }) => subjectName)).toEqual([
      "Oxygen pipeline",
      "Air pipeline",
      "Nitrous oxide pipeline",
    ]);
    expect(asked(us, "vaporizer-fill").map(({ title }) => title)).toEqual([
      "Sevoflurane, mount 1: read the level",
      "Desflurane, mount 2: read the level",
    ]);
    expect(asked(us, "suction").map(({ subjectName, title }) => [subjectName, title])).toEqual([
      ["Suction", "Occlude the suction and read its gauge"],
    ]);
  });

  it("asks nothing of a gas that is not piped, and no hypoxic guard where no nitrous oxide is at hand", () => {
    const noPipe: Place = { ...us, room: us.room && { ...us.room, piped: ["oxygen"] } };
    expect(asked(noPipe, "pipeline-pressure").map(({ subject }) => subject.id)).toEqual(["oxygen"]);
    expect(itemsAsked(noPipe)).toContain("hypoxic-guard");
    const none = withWorkstation({ ...us, room: noPipe.room }, ({ fitted }) => ({
      fitted: { ...fitted, cylinders: fitted.cylinders.filter(({ gas }) => gas === "oxygen") },
    }));
    expect(itemsAsked(none)).not.toContain("hypoxic-guard");
  });

  it.each([
    { method: "bulb", form: "timed", asks: true },
    { method: "self-test", form: "number", asks: true },
    { method: "positive-pressure", form: "number", asks: true },
    { method: "none", form: null, asks: false },
  ] as const)("tests the low-pressure system by the model's method: $method", ({ method, form, asks }) => {
    const place = withWorkstation(us, ({ model }) => ({ model: { ...model, leakTest: method } }));
    expect(asked(place, "low-pressure-leak").map((one) => one.form.kind)).toEqual(form === null ? [] : [form]);
    expect(itemsAsked(place).has("low-pressure-leak")).toBe(asks);
    expect(itemsAsked(place).has("fresh-gas-hose")).toBe(method === "bulb");
  });

  it("leaves out suction without vacuum, extraction without an active system, colour without an indicator", () => {
    const bare: Place = { ...us, room: us.room && { ...us.room, vacuum: false, wasteGas: "passive" } };
    expect(itemsAsked(bare)).not.toContain("suction");
    expect(itemsAsked(bare)).not.toContain("scavenging-extraction");
    const plain = withWorkstation(us, ({ fitted }) => ({
      fitted: {
        ...fitted,
        absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, indicator: false } })),
      },
    }));
    expect(itemsAsked(plain)).not.toContain("absorbent-colour");
    const noVaporizer = withWorkstation(us, ({ fitted }) => ({ fitted: { ...fitted, vaporizers: [] } }));
    expect(itemsAsked(noVaporizer)).not.toContain("vaporizer-interlock");
    expect(itemsAsked(us)).not.toContain("outlet-selector");
    expect(itemsAsked(withWorkstation(us, ({ model }) => ({ model: { ...model, outletSelector: true } })))).toContain(
      "outlet-selector",
    );
  });

  it("asks a spare in the store nothing about a room, and an empty room nothing about a workstation", () => {
    const spare = expandProcedure(DAILY_US, { ...us, room: null });
    expect(spare.some(({ item }) => itemOf(item).about === "room")).toBe(false);
    expect(spare.some(({ item }) => item === "cylinder-gauge")).toBe(true);
    expect(
      expandProcedure(DAILY_US, { ...us, workstation: null }).every(({ item }) => itemOf(item).about === "room"),
    ).toBe(true);
  });
});

describe("units and limits of the site", () => {
  it("reads pressures in the site's unit, and says its limit in words", () => {
    expect(asked(us, "cylinder-gauge")[0]).toMatchObject({
      form: { kind: "gauge", unit: "psi", most: 2900 },
      limits: { atLeast: quantity(1000, "psi"), atMost: null, text: "At least 1,000 psi" },
    });
    expect(asked(iso, "cylinder-gauge", DAILY_ISO)[0]).toMatchObject({
      form: { kind: "gauge", unit: "bar", most: 210 },
      limits: { atLeast: quantity(68.5, "bar"), text: "At least 68.5 bar" },
    });
    expect(asked(us, "cylinder-gauge")[1]?.limits).toBeNull();
    expect(asked(us, "pipeline-pressure")[0]).toMatchObject({
      form: { unit: "psi", least: 0, most: 200, decimals: 0 },
      limits: { text: "45 to 60 psi" },
    });
    expect(asked(iso, "pipeline-pressure", DAILY_ISO)[0]).toMatchObject({
      form: { unit: "bar", least: 0, most: 14, decimals: 1 },
    });
    expect(asked(us, "low-pressure-leak")[0]?.limits?.text).toBe("At least 10 s");
    expect(asked(us, "oxygen-in-air")[0]?.limits?.text).toBe("20 to 22 %");
    expect(asked(us, "oxygen-after-flush")[0]?.limits?.text).toBe("Over 90 %");
    expect(asked(us, "breathing-leak")[0]?.limits?.text).toBe("At most 150 mL/min");
    expect(asked(us, "suction")[0]).toMatchObject({ form: { unit: "mmHg" }, limits: { text: "At least 300 mmHg" } });
    expect(asked(iso, "suction", DAILY_ISO)[0]).toMatchObject({
      form: { unit: "kPa" },
      limits: { text: "At least 60 kPa" },
    });
  });

  it("shows the limit the site set", () => {
    const site = withValues(us, "reserve-oxygen-low", { atLeast: quantity(1200, "psi") });
    expect(asked(site, "cylinder-gauge")[0]?.limits?.text).toBe("At least 1,200 psi");
    const off = {
      ...us,
      settings: { "reserve-oxygen-low": { on: false, values: {}, version: 2, citation: "policy" } },
    };
    expect(asked(off, "cylinder-gauge")[0]?.limits).toBeNull();
  });

  it("shows limits in the unit that is typed where the scheme's own unit is another", () => {
    const inBar = asked(iso, "pipeline-pressure", DAILY_ISO)[0];
    expect(inBar?.limits).toMatchObject({
      atLeast: { value: 3.2, unit: "bar" },
      atMost: { value: 5.5, unit: "bar" },
      text: "3.2 to 5.5 bar",
    });
  });
});

describe("the questions of a recheck", () => {
  it("are the owed ones only, in the procedure's order and words", () => {
    const cylinder = { kind: "cylinder", id: "cylinder-o2" } as const;
    const questions = recheckItems(
      [
        { item: "yoke-leak", subject: cylinder },
        { item: "breathing-leak", subject: { kind: "workstation", id: "workstation-1" } },
        { item: "cylinder-gauge", subject: cylinder },
      ],
      DAILY_US,
      us,
    );
    expect(questions.map(({ key }) => key)).toEqual([
      "cylinder-gauge:cylinder:cylinder-o2",
      "breathing-leak:workstation:workstation-1",
      "yoke-leak:cylinder:cylinder-o2",
    ]);
    expect(questions[2]?.title).toBe("Oxygen, yoke 1 (E): shut the valve and watch the gauge");
  });

  it("has words for every item there is, by the model's method where an item has several", () => {
    for (const item of ITEM_IDS) {
      expect(
        ALL_ITEMS.some((one) => one.item === item),
        item,
      ).toBe(true);
    }
    const place = withWorkstation(us, ({ model }) => ({ model: { ...model, leakTest: "positive-pressure" } }));
    const [question] = recheckItems(
      [{ item: "low-pressure-leak", subject: { kind: "workstation", id: "workstation-1" } }],
      { items: [] },
      place,
    );
    expect(question?.title).toBe("Leak at positive pressure by hand");
  });

  it("asks a task's item without a subject about each one it has", () => {
    const task = {
      items: [
        { item: "vaporizer-fill", subject: null },
        { item: "suction", subject: { kind: "room", id: "room-a1" } },
      ],
    } as const;
    expect(taskItems(task, DAILY_US, us).map(({ key }) => key)).toEqual([
      "suction:room:room-a1",
      "vaporizer-fill:vaporizer:vaporizer-sevo",
      "vaporizer-fill:vaporizer:vaporizer-des",
    ]);
  });
});

describe("the words of the items", () => {
  const texts = [...DAILY_US.items, ...DAILY_ISO.items, ...ALL_ITEMS];

  it.each(texts.map((one) => [one.item, one] as [string, ProcedureItem]))(
    "%s: a short title, how, why, and what then",
    (_item, one) => {
      expect(one.title.length).toBeLessThanOrEqual(48);
      expect(one.title).not.toMatch(/[.!?]$/);
      for (const text of [one.how, one.why, one.whenItFails]) {
        expect(text).toMatch(/\.$/);
        expect(text.length).toBeGreaterThanOrEqual(10);
        expect(text.length).toBeLessThanOrEqual(200);
      }
    },
  );
});
