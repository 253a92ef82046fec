import { describe, expect, it } from "vitest";
import type { Evidence, RuleSetting } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { RULES } from "@/lib/domain/rules/all";
import { answered, cylinderOf, gauge, reading } from "@/lib/domain/rules/examples";
import { readEvidence } from "@/lib/exchange/judge/read-document";
import { type Quantity, quantity } from "@/lib/units/quantity";
import { readyRoom } from "@/tests/support/ready-room";

const own = (more: Partial<RuleSetting> = {}): RuleSetting => ({
  on: true,
  values: {},
  version: 7,
  citation: "Site policy 12",
  ...more,
});

const speaking = RULES.flatMap((rule) => {
  const example = rule.examples.find(
    ({ expect: outcome }) => outcome !== "holds" && (outcome !== "owed" || rule.severity === "owed"),
  );
  return example === undefined ? [] : [[rule.id, rule, example] as const];
});

const said = (evidence: Evidence, rule: string) => judge(evidence).reasons.filter((reason) => reason.rule === rule);

describe("every rule can be switched off, but for those without which a room would be ready unlooked at", () => {
  it.each(speaking)("%s", (id, rule, example) => {
    const room = example.given(readyRoom(example.scheme ?? "US"));
    const shipped = said(room, id);
    expect(shipped.length, example.name).toBeGreaterThan(0);
    for (const reason of shipped) {
      expect(reason.settingsVersion).toBe(room.settings[id]?.version ?? 0);
      expect(reason.citation).not.toBe("");
    }
    const mine = said({ ...room, settings: { ...room.settings, [id]: own(room.settings[id]) } }, id);
    for (const reason of mine) expect(reason).toMatchObject({ settingsVersion: room.settings[id]?.version ?? 7 });
    expect(mine.length).toBe(shipped.length);
    const off = said({ ...room, settings: { ...room.settings, [id]: { ...own(), on: false } } }, id);
    expect(off.length).toBe(rule.always ? shipped.length : 0);
    expect(rule.examples.length).toBeGreaterThan(1);
  });

  it("a document that switches off what cannot be is refused", () => {
    const off = (id: string) => readEvidence({ ...readyRoom(), settings: { [id]: own({ on: false }) } });
    for (const { id, always } of RULES) expect(off(id).ok, id).toBe(always !== true);
    expect(RULES.filter(({ always }) => always).map(({ id }) => id)).toContain("not-checked");
  });

  it("leaves out no rule", () => {
    expect(speaking.map(([id]) => id)).toEqual(RULES.map(({ id }) => id));
  });
});

const psi = (value: number) => quantity(value, "psi");

/** A reserve read at 900 psi, with a limit on each of the three levels or on none. */
function reserve(levels: { site?: Quantity; procedure?: Quantity; model?: Quantity }): Evidence {
  const room = answered(readyRoom(), "cylinder-gauge", gauge(900), cylinderOf(readyRoom(), "oxygen"));
  const { workstation, procedure } = room;
  if (workstation === null || procedure === null) throw new Error("the ready room is whole");
  const at = (limit: Quantity | undefined, version: number) =>
    limit === undefined ? {} : { "reserve-oxygen-low": own({ values: { atLeast: limit }, version }) };
  return {
    ...room,
    settings: at(levels.site, 1),
    procedure: { ...procedure, settings: at(levels.procedure, 2) },
    workstation: { ...workstation, model: { ...workstation.model, settings: at(levels.model, 3) } },
  } as Evidence;
}

describe("of several settings the nearest to the machine stands: model, then procedure, then site, then what is shipped", () => {
  const [low, high] = [psi(800), psi(950)];
  it.each([
    [{}, psi(1_000), 0],
    [{ site: high }, high, 1],
    [{ site: low }, null, 0],
    [{ procedure: high }, high, 2],
    [{ site: low, procedure: high }, high, 2],
    [{ site: high, procedure: low }, null, 0],
    [{ model: high }, high, 3],
    [{ site: low, model: high }, high, 3],
    [{ procedure: low, model: high }, high, 3],
    [{ site: low, procedure: low, model: high }, high, 3],
    [{ site: high, procedure: high, model: low }, null, 0],
    [{ site: high, model: low }, null, 0],
    [{ procedure: high, model: low }, null, 0],
  ] as const)("%j", (levels, limit, version) => {
    const reasons = said(reserve(levels), "reserve-oxygen-low");
    expect(reasons.map((reason) => [reason.limit, reason.settingsVersion])).toEqual(
      limit === null ? [] : [[limit, version]],
    );
  });

  it("a nearer level that does not say on or off leaves that to the next one", () => {
    const room = reserve({ site: high, model: low });
    const off = { ...room, settings: { "reserve-oxygen-low": own({ on: false }) } } as Evidence;
    const { workstation } = off;
    if (workstation === null) throw new Error("the ready room is whole");
    const modelSays = (on: boolean | null): Evidence => ({
      ...off,
      workstation: {
        ...workstation,
        model: {
          ...workstation.model,
          settings: { "reserve-oxygen-low": { ...own({ values: { atLeast: high } }), on } },
        },
      },
    });
    expect(said(modelSays(null), "reserve-oxygen-low")).toEqual([]);
    expect(said(modelSays(true), "reserve-oxygen-low")).toHaveLength(1);
  });
});

describe("a changed limit", () => {
  it("may be in any unit that measures the same", () => {
    const site = (limit: Quantity) => said(reserve({ site: limit }), "reserve-oxygen-low").length;
    expect(site(quantity(62, "bar"))).toBe(0);
    expect(site(quantity(62.1, "bar"))).toBe(1);
    expect(site(quantity(6_205, "kPa"))).toBe(0);
    expect(site(quantity(6_206, "kPa"))).toBe(1);
    // A share of the 1,900 psi to which this cylinder is filled.
    expect(site(quantity(47.3, "%"))).toBe(0);
    expect(site(quantity(47.4, "%"))).toBe(1);
  });

  it("allows a larger leak without low flow only where the site says how large", () => {
    const leaking = (value: number, upTo?: number) => {
      const room = answered(readyRoom(), "breathing-leak", reading(value, "mL/min"));
      const values = { noLowFlowUpTo: quantity(upTo ?? 0, "mL/min") };
      return judge({ ...room, settings: { "breathing-leak": own({ values }) } });
    };
    expect(leaking(150.1).state).toBe("do-not-use");
    expect(leaking(150, 250).state).toBe("ready");
    expect(leaking(150.1, 250)).toMatchObject({ state: "ready-limited", limits: ["no-low-flow"] });
    expect(leaking(250, 250)).toMatchObject({ state: "ready-limited", limits: ["no-low-flow"] });
    expect(leaking(250.1, 250)).toMatchObject({ state: "do-not-use", limits: [] });
  });
});
