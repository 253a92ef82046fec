import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import {
  about,
  answered,
  bad,
  chosen,
  cylinderOf,
  gauge,
  reading,
  timed,
  unanswered,
  withRoom,
  withValues,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { localDate } from "@/lib/units/time";
import { lookedAt, withAnswer } from "@/tests/support/evidence-changes";
import { readyRoom } from "@/tests/support/ready-room";

const us = readyRoom("US");
const iso = readyRoom("ISO");
const OXYGEN = cylinderOf(us, "oxygen");
const lines = (evidence: Evidence) => judge(evidence).reasons.map(({ severity, text }) => `${severity}: ${text}`);

/** A second oxygen cylinder on a third yoke, with its own reading. */
function withSecond(evidence: Evidence, psi: number | null): Evidence {
  const second = withWorkstation(evidence, ({ fitted, model }) => ({
    model: { ...model, yokes: [...model.yokes, { position: "3", gas: "oxygen" }] },
    fitted: {
      ...fitted,
      cylinders: fitted.cylinders.flatMap((one) =>
        one.gas === "oxygen" ? [one, { ...one, id: "cylinder-second", position: "3" }] : [one],
      ),
    },
  }));
  const subject = { kind: "cylinder", id: "cylinder-second" } as const;
  const owes = [...(second.procedure?.owes ?? []), { item: "cylinder-gauge", subject } as const];
  const asked = { ...second, procedure: second.procedure && { ...second.procedure, owes } };
  return psi === null ? asked : withAnswer(asked, { item: "cylinder-gauge", subject, answer: gauge(psi), at: "05:40" });
}

describe("what a person reads", () => {
  it.each([
    {
      evidence: answered(us, "cylinder-gauge", gauge(640), OXYGEN),
      says: "stops: Reserve oxygen 640 psi, 215 L (at least 1,000 psi)",
    },
    {
      evidence: answered(iso, "cylinder-gauge", gauge(60, "bar"), cylinderOf(iso, "oxygen")),
      says: "stops: Reserve oxygen 60 bar, 282 L (at least 68.5 bar)",
    },
    {
      evidence: answered(us, "cylinder-gauge", gauge(1150), OXYGEN),
      says: "due: Change oxygen, yoke 1 (E): 1,150 psi (swap mark 1,200 psi)",
    },
    {
      evidence: answered(us, "pipeline-pressure", reading(43, "psi"), about("oxygen")),
      says: "stops: Oxygen pipeline 43 psi (at least 45 psi)",
    },
    {
      evidence: answered(us, "pipeline-pressure", reading(64, "psi"), about("oxygen")),
      says: "stops: Oxygen pipeline 64 psi (at most 60 psi)",
    },
    {
      evidence: answered(us, "pipeline-pressure", reading(47, "psi"), about("oxygen")),
      says: "note: Oxygen pipeline 47 psi, low (normal 50 to 55 psi)",
    },
    {
      evidence: answered(us, "pipeline-pressure", reading(30, "psi"), about("air")),
      says: "limits: Air pipeline 30 psi (at least 45 psi)",
    },
    {
      evidence: answered(us, "breathing-leak", reading(310, "mL/min")),
      says: "stops: Breathing system leaks 310 mL/min at 30 cmH₂O (at most 150 mL/min)",
    },
    {
      evidence: answered(us, "low-pressure-leak", timed(6)),
      says: "stops: Low-pressure leak test held 6 s (at least 10 s)",
    },
    {
      evidence: answered(us, "low-pressure-leak", timed(12, false)),
      says: "stops: Low-pressure leak test did not hold (at least 10 s)",
    },
    {
      evidence: answered(us, "oxygen-in-air", reading(24, "%")),
      says: "stops: Oxygen sensor reads 24 % in room air (21 % ± 1 %)",
    },
    {
      evidence: answered(us, "oxygen-after-flush", reading(88.4, "%")),
      says: "stops: Oxygen sensor reads 88.4 % after flush (over 90 %)",
    },
    {
      evidence: answered(us, "absorbent-colour", chosen("two-thirds")),
      says: "stops: Absorbent spent: colour changed two thirds (under two thirds at the start of the day)",
    },
    {
      evidence: answered(us, "vaporizer-fill", chosen("quarter"), about("vaporizer-sevo")),
      says: "due: Fill sevoflurane, mount 1: 25 % full (mark 50 %)",
    },
    {
      evidence: answered(us, "vaporizer-fill", chosen("empty"), about("vaporizer-sevo")),
      says: "limits: No sevoflurane, mount 1: empty",
    },
    { evidence: answered(us, "ventilator", { ...bad, note: "alarm 42" }), says: "stops: Ventilator fails: alarm 42" },
    {
      evidence: answered(iso, "suction", reading(41, "kPa")),
      says: "stops: Suction 41 kPa occluded (at least 60 kPa)",
    },
  ])("$says", ({ evidence, says }) => {
    expect(lines(evidence)).toEqual([says]);
  });

  it("names the room and the machine nowhere: they stand beside it", () => {
    const everything = us.observations.reduce(
      (evidence, one) =>
        withAnswer(evidence, { item: one.item, subject: one.subject, answer: bad, at: "06:00", check: null }),
      us,
    );
    const judgement = judge(everything);
    expect(judgement.reasons.length).toBeGreaterThan(15);
    for (const { text } of judgement.reasons) expect(text).not.toMatch(/\bA1\b|W-001|room-a1|workstation-1/);
  });
});

describe("reserve oxygen as a set", () => {
  const stops = (evidence: Evidence) => lines(evidence).filter((line) => line.startsWith("stops"));

  it("holds by one good cylinder; the low one beside it is work", () => {
    const evidence = withSecond(answered(us, "cylinder-gauge", gauge(400), OXYGEN), 1500);
    expect(judge(evidence).state).toBe("ready");
    expect(lines(evidence)).toEqual(["due: Change oxygen, yoke 1 (E): 400 psi (swap mark 1,200 psi)"]);
  });

  it("holds by one good cylinder while another is still to be read, which stays owed as an item", () => {
    const judgement = judge(withSecond(us, null));
    expect(judgement.state).toBe("to-check");
    expect(judgement.reasons.map(({ rule }) => rule)).toEqual(["not-checked"]);
  });

  it("is not known, and so to check, when the one that was read is low and the other was not read", () => {
    const evidence = withSecond(answered(us, "cylinder-gauge", gauge(400), OXYGEN), null);
    expect(judge(evidence).state).toBe("to-check");
    expect(stops(evidence)).toEqual([]);
    expect(lines(evidence)).toContain("due: Change oxygen, yoke 1 (E): 400 psi (swap mark 1,200 psi)");
  });

  it("stops, naming the best, when every one was read and all are low", () => {
    expect(stops(withSecond(answered(us, "cylinder-gauge", gauge(400), OXYGEN), 900))).toEqual([
      "stops: Reserve oxygen 900 psi, 305 L, the best of 2 (at least 1,000 psi)",
    ]);
  });

  it("does not count a cylinder whose yoke leaks, nor a quarantined one", () => {
    const leaking = answered(us, "yoke-leak", bad, OXYGEN);
    expect(stops(leaking)).toContain("stops: Reserve oxygen 1,900 psi, 660 L, but its yoke leaks");
    const quarantined = withWorkstation(us, () => ({
      quarantine: [{ subject: { kind: "cylinder", id: "cylinder-o2" }, since: us.now }],
    }));
    expect(stops(quarantined)).toEqual(["stops: Reserve oxygen 1,900 psi, 660 L, but it is quarantined"]);
  });

  it("is asked of no model without an oxygen yoke", () => {
    const without = withWorkstation(unanswered(us, "cylinder-gauge"), ({ model, fitted }) => ({
      model: { ...model, yokes: [] },
      fitted: { ...fitted, cylinders: [] },
    }));
    const owes = (without.procedure?.owes ?? []).filter(({ item }) => item !== "cylinder-gauge");
    expect(judge({ ...without, procedure: without.procedure && { ...without.procedure, owes } }).state).toBe("ready");
  });
});

describe("a dye that reverts at rest", () => {
  const reverting = withWorkstation(us, ({ fitted }) => ({
    fitted: {
      ...fitted,
      absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, reverts: true } })),
    },
  }));

  it("still counts as spent the next morning, when it looks white again", () => {
    // Published worked rule: colour white, but the case ended yesterday with purple recorded: still change.
    const spent = withAnswer(reverting, { item: "absorbent-colour", answer: chosen("two-thirds"), at: "05:00" });
    expect(lines(spent)).toEqual([
      "stops: Absorbent spent: colour changed two thirds (under two thirds at the start of the day)",
    ]);
    const kept = withWorkstation(spent, ({ fitted }) => ({
      fitted: {
        ...fitted,
        absorbent: fitted.absorbent.map((one) => ({ ...one, product: { ...one.product, reverts: false } })),
      },
    }));
    expect(lines(kept)).toEqual(["note: Absorbent colour failed first, then passed"]);
  });
});

describe("a limit and today's list", () => {
  const noAir = answered(us, "pipeline-pressure", reading(30, "psi"), about("nitrous-oxide"));

  it("leaves the room fit for a list that does not need what is gone", () => {
    expect(judge(noAir)).toMatchObject({ state: "ready-limited", limits: ["no-nitrous-oxide"], readyForList: true });
  });

  it("makes it unfit for a list that does", () => {
    const list = { firstCase: null, end: null, needs: ["nitrous-oxide"], setUpMinutes: 0 } as const;
    expect(judge(withRoom(noAir, { list }))).toMatchObject({ state: "ready-limited", readyForList: false });
  });

  it("takes a list of unknown needs to need volatile, ventilator and low flow", () => {
    const empty = answered(us, "vaporizer-fill", chosen("empty"));
    expect(judge(withRoom(empty, { list: null }))).toMatchObject({
      limits: ["intravenous-only", "no-desflurane", "no-sevoflurane"],
      readyForList: false,
    });
    expect(judge(withRoom(noAir, { list: null })).readyForList).toBe(true);
  });
});

describe("use with a limit", () => {
  const limited = answered(us, "battery", bad);
  const allowed = (until: string, role: "charge-provider" | "technician", rule = "battery") =>
    withWorkstation(limited, () => ({
      allowed: [{ rule, by: [{ person: "p", role }], measures: "stay on mains", until }],
    }));
  const END = "2026-03-03T21:00:00.000Z";

  it("is nobody's until somebody with the right allows it", () => {
    expect(judge(limited).reasons[0]).toMatchObject({ severity: "limits", allowedUntil: null });
    expect(judge(allowed(END, "technician")).reasons[0]?.allowedUntil).toBeNull();
    expect(judge(allowed(END, "charge-provider", "air-pipeline")).reasons[0]?.allowedUntil).toBeNull();
    expect(judge(allowed(END, "charge-provider")).reasons[0]?.allowedUntil).toBe(END);
  });

  it("ends when its time ends, and then the next case is stopped", () => {
    const evidence = allowed(END, "charge-provider");
    expect(judge(evidence).goodUntil).toBe(END);
    const ended = judge({ ...evidence, now: END });
    expect(ended.state).toBe("do-not-use");
    expect(ended.reasons[0]?.text).toBe(
      "Backup battery not charged or failed: stay on mains; the time it was allowed for has ended",
    );
  });

  it("does not carry over to the same thing failing again later", () => {
    const old = allowed("2026-03-03T11:00:00.000Z", "charge-provider");
    expect(judge(old).reasons[0]).toMatchObject({ severity: "limits", allowedUntil: null });
  });

  it("wants biomedical engineer and manager together for late service", () => {
    const late = withWorkstation(us, () => ({
      serviceDue: [
        {
          plan: "annual service",
          due: localDate("2026-02-01"),
          window: { from: localDate("2026-01-20"), to: localDate("2026-02-10") },
        },
      ],
    }));
    const by = (...roles: ("biomedical-engineer" | "manager")[]) =>
      withWorkstation(late, () => ({
        allowed: [
          { rule: "service-late", by: roles.map((role) => ({ person: role, role })), measures: "", until: END },
        ],
      }));
    expect(judge(late)).toMatchObject({
      state: "ready-limited",
      limits: ["service-late"],
      reasons: [{ text: "Service late: annual service, window ended 10 Feb 2026" }],
    });
    expect(judge(by("manager")).reasons[0]?.allowedUntil).toBeNull();
    expect(judge(by("biomedical-engineer", "manager")).reasons[0]?.allowedUntil).toBe(END);
  });
});

describe("a rule of the site", () => {
  it("that is off says nothing, and its items do not fall to the generic rule", () => {
    const off = {
      ...answered(us, "suction", bad),
      settings: { suction: { on: false, values: {}, version: 3, citation: "policy" } },
    };
    expect(judge(off)).toMatchObject({ state: "ready", reasons: [] });
  });

  it("says one thing once: the stop, and not the work for the same cylinder beside it", () => {
    expect(lines(answered(us, "cylinder-gauge", gauge(20), OXYGEN))).toEqual([
      "stops: Reserve oxygen 20 psi, 7 L (at least 1,000 psi)",
    ]);
    expect(lines(answered(us, "cylinder-gauge", gauge(20), cylinderOf(us, "nitrous-oxide")))).toEqual([
      "due: Empty cylinder on its yoke, nitrous oxide, yoke 2 (E): 20 psi",
    ]);
  });

  it("is not changed by a value of another kind", () => {
    const wrong = withValues(answered(us, "suction", reading(299, "mmHg")), "suction", {
      atLeast: quantity(1, "L/min"),
    });
    expect(lines(wrong)).toEqual(["stops: Suction 299 mmHg occluded (at least 300 mmHg)"]);
  });

  it("that shows a notice for one pipeline still lets the room start", () => {
    expect(judge(lookedAt(answered(us, "pipeline-pressure", reading(47, "psi"), about("oxygen")), "06:11")).state).toBe(
      "ready",
    );
  });
});
