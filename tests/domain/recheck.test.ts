import { describe, expect, it } from "vitest";
import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import { ITEM_IDS, itemOf, type Subject } from "@/lib/domain/items";
import { judge } from "@/lib/domain/judge";
import { RECHECK, recheckOf } from "@/lib/domain/recheck";
import { bad, gauge, good, reading, timed } from "@/lib/domain/rules/examples";
import { EVENT_KINDS, type EventKind } from "@/lib/domain/vocabulary";
import { lookedAt, moment, owedLines, withAnswer, withCheck, withEvent } from "@/tests/support/evidence-changes";
import { readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom();
const WORKSTATION: Subject = { kind: "workstation", id: "workstation-1" };

function refit(
  evidence: Evidence,
  change: (fitted: WorkstationEvidence["fitted"]) => Partial<WorkstationEvidence["fitted"]>,
): Evidence {
  const { workstation } = evidence;
  if (workstation === null) throw new Error("the ready room has a workstation");
  return {
    ...evidence,
    workstation: { ...workstation, fitted: { ...workstation.fitted, ...change(workstation.fitted) } },
  };
}

/** The oxygen cylinder taken off at 06:00 and another one put on, with what the procedure asks now. */
function swapped(evidence: Evidence): Evidence {
  const other = refit(evidence, ({ cylinders }) => ({
    cylinders: cylinders.map((one) =>
      one.gas === "oxygen" ? { ...one, id: "cylinder-new", serial: "NEW", from: moment("06:00") } : one,
    ),
  }));
  const owes = (other.procedure?.owes ?? []).map((one) =>
    one.subject.id === "cylinder-o2" ? { ...one, subject: { kind: "cylinder", id: "cylinder-new" } as const } : one,
  );
  return withEvent(
    { ...other, procedure: other.procedure && { ...other.procedure, owes } },
    "cylinder-swapped",
    { kind: "cylinder", id: "cylinder-new" },
    "06:00",
  );
}

const owedAfter = (kind: EventKind, subject: Subject, at = "06:00") =>
  owedLines(judge(withEvent(ready, kind, subject, at)).owed);

describe("what an event makes due again", () => {
  it.each([
    {
      kind: "vaporizer-fitted",
      subject: { kind: "vaporizer", id: "vaporizer-sevo" },
      owes: [
        "filler-closed vaporizer-sevo recheck",
        "fresh-gas-hose workstation-1 recheck",
        "low-pressure-leak workstation-1 recheck",
        "vaporizer-fill vaporizer-sevo recheck",
        "vaporizer-interlock workstation-1 recheck",
        "vaporizer-seated vaporizer-sevo recheck",
      ],
    },
    {
      kind: "refilled",
      subject: { kind: "vaporizer", id: "vaporizer-sevo" },
      owes: ["filler-closed vaporizer-sevo recheck"],
    },
    {
      kind: "absorbent-changed",
      subject: { kind: "absorbent", id: "absorbent-1" },
      owes: ["breathing-leak workstation-1 recheck"],
    },
    {
      kind: "cylinder-swapped",
      subject: { kind: "cylinder", id: "cylinder-o2" },
      owes: ["cylinder-gauge cylinder-o2 recheck", "yoke-leak cylinder-o2 recheck"],
    },
    {
      kind: "sensor-replaced",
      subject: { kind: "oxygen-sensor", id: "sensor-1" },
      owes: [
        "breathing-leak workstation-1 recheck",
        "low-oxygen-alarm sensor-1 recheck",
        "oxygen-after-flush sensor-1 recheck",
        "oxygen-in-air sensor-1 recheck",
      ],
    },
    {
      kind: "moved-in",
      subject: WORKSTATION,
      owes: [
        "final-state workstation-1 recheck",
        "mains-power workstation-1 recheck",
        "pipeline-pressure air recheck",
        "pipeline-pressure nitrous-oxide recheck",
        "pipeline-pressure oxygen recheck",
        "scavenging-extraction room-a1 recheck",
      ],
    },
    {
      kind: "pipeline-event",
      subject: { kind: "pipeline", id: "oxygen" },
      owes: ["pipeline-identity oxygen recheck", "pipeline-pressure oxygen recheck"],
    },
    { kind: "circuit-changed", subject: WORKSTATION, owes: [] },
  ] as const)("$kind owes exactly its row of the table", ({ kind, subject, owes }) => {
    expect(owedAfter(kind, subject)).toEqual(owes);
  });

  it("owes everything after service", () => {
    expect(judge(withEvent(ready, "serviced", WORKSTATION, "06:00")).owed).toHaveLength(
      ready.procedure?.owes.length ?? 0,
    );
  });

  it("asks pressure and identity of every gas when a whole room's pipes were worked on", () => {
    expect(owedAfter("pipeline-event", { kind: "room", id: "room-a1" })).toHaveLength(6);
  });

  it("owes nothing that was looked at after the event, and everything that was not", () => {
    expect(owedAfter("cylinder-swapped", { kind: "cylinder", id: "cylinder-o2" }, "05:39")).toEqual([
      "yoke-leak cylinder-o2 recheck",
    ]);
    expect(owedAfter("cylinder-swapped", { kind: "cylinder", id: "cylinder-o2" }, "05:41")).toHaveLength(2);
  });

  it("keeps an item owed when the record cannot tell whether it was looked at before or after the event", () => {
    const paper = { source: "paper", earliest: moment("05:50"), latest: moment("06:10") } as const;
    const check = withCheck(ready, { id: "recheck", kind: "recheck", started: "05:50", signed: [{ at: "06:10" }] });
    const looked = withAnswer(check, {
      item: "breathing-leak",
      answer: reading(50, "mL/min"),
      at: "06:05",
      known: paper,
      check: "recheck",
    });
    const changed = withEvent(looked, "absorbent-changed", { kind: "absorbent", id: "absorbent-1" }, "06:00");
    expect(owedLines(judge(changed).owed)).toEqual(["breathing-leak workstation-1 recheck"]);
    const surely = withEvent(looked, "absorbent-changed", { kind: "absorbent", id: "absorbent-1" }, "05:50");
    expect(judge(surely).owed).toEqual([]);
  });

  it("does not touch another vaporizer, another cylinder or another gas", () => {
    const linesAfter = (kind: EventKind, subject: Subject) => owedAfter(kind, subject).join("\n");
    expect(linesAfter("vaporizer-fitted", { kind: "vaporizer", id: "vaporizer-des" })).not.toContain("sevo");
    expect(linesAfter("cylinder-swapped", { kind: "cylinder", id: "cylinder-n2o" })).not.toContain("cylinder-o2");
    expect(linesAfter("pipeline-event", { kind: "pipeline", id: "air" })).not.toContain("oxygen");
  });

  it("runs the self-test again where the model's self-test stands for the item", () => {
    const { workstation } = ready;
    if (workstation === null) throw new Error("the ready room has a workstation");
    const owes = [
      ...(ready.procedure?.owes ?? []).filter(({ item }) => item !== "breathing-leak"),
      { item: "self-test", subject: WORKSTATION } as const,
    ];
    const model = { ...workstation.model, selfTestCovers: ["breathing-leak"] as const };
    const selfTesting = {
      ...ready,
      workstation: { ...workstation, model },
      procedure: ready.procedure && { ...ready.procedure, owes },
    };
    const passed = withAnswer(selfTesting, { item: "self-test", answer: good, at: "05:40" });
    expect(judge(passed).owed).toEqual([]);
    const changed = withEvent(passed, "absorbent-changed", { kind: "absorbent", id: "absorbent-1" }, "06:00");
    expect(owedLines(judge(changed).owed)).toEqual(["self-test workstation-1 recheck"]);
  });

  it("names only items of the subject its kind of event is about, or of the whole machine", () => {
    for (const kind of EVENT_KINDS) {
      const rows = RECHECK[kind];
      if (rows === "everything") continue;
      const subjects = new Set(rows.filter(({ of }) => of === "same").map(({ item }) => itemOf(item).subject));
      expect(subjects.size).toBeLessThanOrEqual(1);
      expect(rows.every(({ item }) => (ITEM_IDS as readonly string[]).includes(item))).toBe(true);
    }
    expect(recheckOf("serviced")).toBe("everything");
    expect(recheckOf("refilled")).toEqual(["filler-closed"]);
  });
});

describe("a cylinder swapped after the daily check", () => {
  const low = withAnswer(ready, {
    item: "cylinder-gauge",
    subject: { kind: "cylinder", id: "cylinder-o2" },
    answer: gauge(640),
    at: "05:43",
  });

  it("was do not use for the low one, and owes the swap alone for the new one", () => {
    expect(judge(low)).toMatchObject({
      state: "do-not-use",
      reasons: [{ text: "Reserve oxygen 640 psi, 215 L (at least 1,000 psi)" }],
    });
    const judgement = judge(swapped(low));
    expect(judgement.state).toBe("to-check");
    expect(owedLines(judgement.owed)).toEqual([
      "cylinder-gauge cylinder-new recheck",
      "yoke-leak cylinder-new recheck",
    ]);
    expect(judgement.reasons.map(({ rule, text }) => [rule, text])).toEqual([
      ["recheck-owed", "Recheck, cylinder swapped: cylinder gauge and yoke leak (oxygen, yoke 1)"],
    ]);
  });

  it("is ready when both are answered well and signed, and the marks have stayed", () => {
    const check = withCheck(swapped(low), {
      id: "recheck",
      kind: "recheck",
      started: "06:04",
      signed: [{ at: "06:05" }],
    });
    const subject = { kind: "cylinder", id: "cylinder-new" } as const;
    const read = withAnswer(check, {
      item: "cylinder-gauge",
      subject,
      answer: gauge(1950),
      at: "06:04",
      check: "recheck",
    });
    expect(owedLines(judge(read).owed)).toEqual(["yoke-leak cylinder-new recheck"]);
    const done = withAnswer(read, { item: "yoke-leak", subject, answer: good, at: "06:04", check: "recheck" });
    expect(judge(done)).toMatchObject({ state: "ready", reasons: [], marks: { equipment: { at: moment("05:45") } } });
    expect(judge(withAnswer(done, { item: "yoke-leak", subject, answer: bad, at: "06:06", check: null })).state).toBe(
      "do-not-use",
    );
  });

  it("owes the same when nobody recorded the event", () => {
    const silent = { ...swapped(low), events: [] };
    expect(owedLines(judge(silent).owed)).toEqual([
      "cylinder-gauge cylinder-new recheck",
      "yoke-leak cylinder-new recheck",
    ]);
  });

  it("is part of the next day's whole check, and no recheck any more", () => {
    const nextDay = lookedAt(swapped(ready), "+1 05:30");
    const judgement = judge(nextDay);
    expect(judgement.reasons.map(({ rule }) => rule)).toEqual(["not-checked", "recheck-owed"]);
    expect(
      judgement.owed.find(({ item, subject }) => item === "cylinder-gauge" && subject.id === "cylinder-new")?.because,
    ).toBe("not-checked");
  });
});

describe("a part fitted after the daily check", () => {
  it("owes its recheck and nothing more of the daily procedure", () => {
    const at = moment("06:00");
    const changed = refit(ready, ({ absorbent }) => ({
      absorbent: absorbent.map((one) => ({ ...one, id: "absorbent-new", from: at })),
    }));
    const owes = (changed.procedure?.owes ?? []).map((one) =>
      one.subject.id === "absorbent-1" ? { ...one, subject: { kind: "absorbent", id: "absorbent-new" } as const } : one,
    );
    const judgement = judge({ ...changed, procedure: changed.procedure && { ...changed.procedure, owes } });
    expect(owedLines(judgement.owed)).toEqual(["breathing-leak workstation-1 recheck"]);
  });

  it("and put back before a second check has to be looked at in that check", () => {
    const back = refit(ready, ({ absorbent }) => ({
      absorbent: absorbent.map((one) => ({ ...one, from: moment("06:00") })),
    }));
    const second = withCheck(back, { id: "second", started: "06:01", signed: [{ at: "06:05" }] });
    const leak = withAnswer(second, {
      item: "breathing-leak",
      answer: reading(50, "mL/min"),
      at: "06:03",
      check: "second",
    });
    expect(owedLines(judge(leak).owed)).toEqual(["absorbent-colour absorbent-1 incomplete"]);
  });

  it("asks for nothing beside the next whole check, when nobody recorded that it was fitted", () => {
    const fitted = refit(ready, ({ vaporizers }) => ({
      vaporizers: vaporizers.map((one) => ({ ...one, from: moment("-1 12:00") })),
    }));
    const before = withAnswer(fitted, { item: "valves", answer: good, at: "-1 05:40", check: null });
    expect(judge(before).owed).toEqual([]);
    expect(
      owedLines(judge(lookedAt(before, "+1 05:30")).owed).some((line) => line.startsWith("vaporizer-seated")),
    ).toBe(false);
  });

  it("counts again only when looked at after it came back", () => {
    const back = refit(ready, ({ vaporizers }) => ({
      vaporizers: vaporizers.map((one) => (one.id === "vaporizer-sevo" ? { ...one, from: moment("06:00") } : one)),
    }));
    expect(owedLines(judge(back).owed)).toContain("vaporizer-fill vaporizer-sevo recheck");
    expect(owedLines(judge(back).owed)).toContain("low-pressure-leak workstation-1 recheck");
    const tested = withCheck(back, { id: "recheck", kind: "recheck", started: "06:01", signed: [{ at: "06:05" }] });
    const leak = withAnswer(tested, { item: "low-pressure-leak", answer: timed(12), at: "06:03", check: "recheck" });
    expect(owedLines(judge(leak).owed)).not.toContain("low-pressure-leak workstation-1 recheck");
  });
});

describe("several events", () => {
  it("are told in one order, however the record lists them", () => {
    const sevo = { kind: "vaporizer", id: "vaporizer-sevo" } as const;
    const both = withEvent(
      withEvent(ready, "vaporizer-fitted", sevo, "06:00"),
      "pipeline-event",
      { kind: "pipeline", id: "oxygen" },
      "06:01",
    );
    const reversed = { ...both, events: [...both.events].reverse() };
    expect(judge(reversed)).toEqual(judge(both));
    const des = withEvent(both, "refilled", { kind: "vaporizer", id: "vaporizer-des" }, "06:02");
    expect(judge({ ...des, events: [...des.events].reverse() })).toEqual(judge(des));
  });
});

describe("the identity of a pipeline", () => {
  const worked = withEvent(ready, "pipeline-event", { kind: "pipeline", id: "oxygen" }, "+0 02:00");

  it("stays owed over days until it is answered, although no daily check asks for it", () => {
    expect(owedLines(judge(worked).owed)).toEqual(["pipeline-identity oxygen recheck"]);
    expect(owedLines(judge(lookedAt(worked, "+1 05:30")).owed)).toContain("pipeline-identity oxygen recheck");
  });

  it("is done for good by one signed answer, and a wrong gas stops", () => {
    const check = withCheck(worked, { id: "recheck", kind: "recheck", started: "06:00", signed: [{ at: "06:05" }] });
    const subject = { kind: "pipeline", id: "oxygen" } as const;
    const proved = withAnswer(check, {
      item: "pipeline-identity",
      subject,
      answer: good,
      at: "06:02",
      check: "recheck",
    });
    expect(judge(proved).owed).toEqual([]);
    expect(owedLines(judge(lookedAt(proved, "+1 05:30")).owed)).not.toContain("pipeline-identity oxygen recheck");
    const wrong = withAnswer(check, { item: "pipeline-identity", subject, answer: bad, at: "06:02", check: null });
    expect(judge(wrong)).toMatchObject({
      state: "do-not-use",
      reasons: [{ text: "Wrong or unproved gas from the oxygen pipeline" }],
    });
  });
});
