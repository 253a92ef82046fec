import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { isOwnItem, itemOf, ownItemId } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import { isOwn, ownQuestionOf } from "@/lib/domain/own-question";
import { askedSince } from "@/lib/domain/procedure/decide";
import type { OwnItem, ProcedureItem } from "@/lib/domain/procedure/model";
import { textDifference, textProblem, unseenBy } from "@/lib/domain/procedure-change/decide";
import { LIBRARY } from "@/lib/domain/ready-made-procedures/all";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import { assessment } from "@/lib/domain/rules/assess";
import { withValues } from "@/lib/domain/rules/examples";
import { whyNotAnswered } from "@/lib/domain/who-answers";
import { quantity } from "@/lib/units/quantity";
import { instantOf, timestampOf } from "@/lib/units/time";
import { readyRoom, readyTime } from "@/tests/support/ready-room";

const HUMIDITY: OwnItem = {
  item: "own-room-humidity",
  title: "Read the humidity",
  how: "From the panel by the door.",
  why: "Dry air sparks.",
  whenItFails: "Tell the plant.",
  answer: { kind: "number", unit: "%", least: 0, most: 100, decimals: 0 },
  by: "either",
  applies: {},
  failing: "stops",
  limits: { atLeast: 20, atMost: 60 },
};
const text = (items: readonly ProcedureItem[]) => ({ ...DAILY_US, items });
const at = (time: string) => timestampOf(instantOf(readyTime("US", time)));

describe("a question of a site's own", () => {
  it("has an id from which its name and what it is about are read", () => {
    expect(ownItemId("room", "  Wall clock: réglée? ")).toBe("own-room-wall-clock-reglee");
    expect(ownItemId("room", "???")).toBeNull();
    expect(itemOf("own-room-wall-clock")).toMatchObject({ name: "Wall clock", about: "room", subject: "room" });
    expect(isOwnItem("own-cellar-door")).toBe(false);
    expect(isOwn(HUMIDITY)).toBe(true);
  });

  it.each([
    [19, "fail"],
    [20, "pass"],
    [60, "pass"],
    [61, "fail"],
  ] as const)("a reading of %d %% is judged by the site's own limits: %s", (value, worth) => {
    const place = withOwn(readyRoom());
    const about = { item: HUMIDITY.item, subject: { kind: "room", id: "room-a1" } as const, place };
    expect(assessment({ kind: "number", reading: quantity(value, "%") }, about)).toBe(worth);
  });

  it("stops when it fails, and says nothing once no procedure asks it", () => {
    const failed = withOwn(answeredOwn(readyRoom()));
    expect(judge(failed)).toMatchObject({
      state: "do-not-use",
      reasons: [{ rule: "failed-item", text: "Humidity failed" }],
    });
    const takenBack = { ...failed, procedure: failed.procedure && { ...failed.procedure, own: [] } };
    expect(judge(takenBack).state).toBe("ready");
    const unknown = { ...failed, procedure: readyRoom().procedure };
    expect(judge(unknown).state).toBe("do-not-use");
  });
});

const withOwn = (evidence: Evidence): Evidence => ({
  ...evidence,
  procedure: evidence.procedure && { ...evidence.procedure, own: [ownQuestionOf(HUMIDITY, "psi")] },
});

function answeredOwn(ready: Evidence): Evidence {
  const [like] = ready.observations;
  if (!like || !ready.room) throw new Error("nothing was answered");
  const answer = { kind: "pass", passed: false } as const;
  const subject = { kind: "room", id: ready.room.id } as const;
  return {
    ...ready,
    observations: [
      ...ready.observations,
      { ...like, id: "own", item: HUMIDITY.item, subject, answer, verdict: "fail" },
    ],
  };
}

describe("a version that is newer than the check", () => {
  const asking = (since: string): Evidence => {
    const ready = readyRoom();
    const { procedure, workstation } = ready;
    if (!procedure || !workstation) throw new Error("no procedure");
    const more = { item: "label", subject: { kind: "workstation", id: workstation.id }, since: at(since) } as const;
    return { ...ready, procedure: { ...procedure, version: 2, owes: [...procedure.owes, more] } };
  };

  it("owes nothing more of a check that was begun before it, unless the site decided so", () => {
    expect(judge(asking("05:31")).state).toBe("ready");
    expect(judge(asking("05:29")).state).toBe("to-check");
    expect(judge(withValues(asking("05:31"), "procedure-change", { owedAtOnce: true })).state).toBe("to-check");
  });

  it("asks an item since the first of the versions that ask it without a break", () => {
    const [third, second, first] = [at("05:30"), at("05:20"), at("05:10")];
    const since = askedSince([
      { inForceFrom: third, items: ["apl", "valves", "label"] },
      { inForceFrom: second, items: ["apl", "valves"] },
      { inForceFrom: first, items: ["apl"] },
    ]);
    expect([...since]).toEqual([
      ["valves", second],
      ["label", third],
    ]);
  });
});

describe("what can be written", () => {
  it("every ready-made list can", () => {
    for (const { id, kind, ...one } of LIBRARY) expect(textProblem(kind, one), id).toBeNull();
  });

  it("not an item twice, no limits beside a rule, no form that a rule cannot read, no limits that nothing meets", () => {
    const [bag, ...rest] = DAILY_US.items;
    if (!bag) throw new Error("an empty list");
    expect(textProblem("daily", text([]))?.field).toBe("text.items");
    expect(textProblem("daily", text([bag, ...rest, bag]))?.field).toBe(`text.items.${DAILY_US.items.length}.item`);
    expect(textProblem("daily", text([{ ...bag, limits: { atLeast: 3 } }]))?.field).toBe("text.items.0.limits");
    expect(textProblem("daily", text([{ ...bag, answer: HUMIDITY.answer }]))?.field).toBe("text.items.0.answer");
    const upsideDown = { ...HUMIDITY, limits: { atLeast: 60, atMost: 20 } };
    expect(textProblem("daily", text([bag, upsideDown]))?.field).toBe("text.items.1.limits.atLeast");
  });

  it("says what differs, and what nobody would look at any more", () => {
    const after = text([...DAILY_US.items.filter(({ item }) => item !== "suction"), HUMIDITY]);
    const sameOtherwise = {
      reordered: false,
      renamed: after.name !== DAILY_US.name || after.citation !== DAILY_US.citation,
    };
    expect(textDifference(DAILY_US, after)).toEqual({
      added: ["Humidity"],
      removed: ["Suction"],
      reworded: [],
      ...sameOtherwise,
    });
    const turned = { ...DAILY_US, items: [...DAILY_US.items].reverse() };
    expect(textDifference(DAILY_US, turned)).toMatchObject({ added: [], removed: [], reordered: true, renamed: false });
    expect(textDifference(DAILY_US, { ...DAILY_US, name: "Other" })).toMatchObject({ reordered: false, renamed: true });
    expect(unseenBy("daily", DAILY_US, after)).toHaveLength(1);
    expect(unseenBy("each-case", DAILY_US, after)).toEqual([]);
  });
});

describe("who answers", () => {
  it.each([
    ["technician", ["technician"], false, true],
    ["technician", ["provider"], true, true],
    ["technician", ["provider"], false, false],
    ["provider", ["charge-provider"], false, true],
    ["provider", ["technician"], true, false],
    ["not-delegated", ["biomedical-engineer"], true, false],
    ["both", ["technician"], false, true],
  ] as const)("an item for %s, by %j, a provider alone allowed %s: %s", (by, roles, alone, may) => {
    expect(whyNotAnswered({ by, title: "Look" }, roles, alone) === null).toBe(may);
  });
});
