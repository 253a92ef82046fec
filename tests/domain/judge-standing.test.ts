import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { bad, chosen, gauge, good, reading, unchecked } from "@/lib/domain/rules/examples";
import { lookedAt, moment, owedLines, withAnswer, withCheck } from "@/tests/support/evidence-changes";
import { PROVIDER, readyRoom, TECHNICIAN } from "@/tests/support/ready-room";

const ready = readyRoom();
const OXYGEN = { kind: "cylinder", id: "cylinder-o2" } as const;
const SUCTION = { kind: "room", id: "room-a1" } as const;
const rulesOf = (evidence: Evidence) => judge(evidence).reasons.map(({ rule, severity }) => `${rule} ${severity}`);

describe("unchecked is not failed", () => {
  it("shows a room that nobody has looked at as to check, with one reason, and not as do not use", () => {
    const judgement = judge(unchecked(ready));
    expect(judgement.state).toBe("to-check");
    expect(judgement.reasons.map(({ rule }) => rule)).toEqual(["not-checked"]);
    expect(judgement.owed).toHaveLength(ready.procedure?.owes.length ?? 0);
    expect(judgement.owed.every(({ because }) => because === "not-checked")).toBe(true);
    expect(judgement.marks).toEqual({ equipment: null, provider: null });
  });

  it("does not make a room ready where no procedure asks anything", () => {
    expect(judge({ ...ready, procedure: null }).state).toBe("to-check");
  });
});

describe("a failing answer", () => {
  it("counts at once, before anything is signed", () => {
    const begun = withCheck(unchecked(ready), { id: "today", started: "05:30" });
    const failed = withAnswer(begun, { item: "suction", answer: bad, at: "05:35", check: "today" });
    expect(judge(failed).state).toBe("do-not-use");
    expect(rulesOf(failed)).toContain("suction stops");
  });

  it("stands over the end of its check and over days", () => {
    const failed = withAnswer(ready, { item: "suction", answer: bad, at: "05:50" });
    expect(rulesOf(lookedAt(failed, "+1 05:30"))).toEqual(["suction stops", "not-checked owed"]);
    expect(judge(lookedAt(failed, "+9 05:30")).state).toBe("do-not-use");
  });

  it("stands against a later pass until that is signed", () => {
    const failed = withAnswer(ready, { item: "suction", answer: bad, at: "05:50" });
    const again = withCheck(failed, { id: "recheck", kind: "recheck", started: "06:00" });
    const passed = withAnswer(again, { item: "suction", answer: reading(400, "mmHg"), at: "06:01", check: "recheck" });
    expect(judge(passed).state).toBe("do-not-use");
    const signed = withCheck(passed, { id: "recheck", kind: "recheck", started: "06:00", signed: [{ at: "06:02" }] });
    expect(judge(signed).state).toBe("ready");
  });

  it("stays cleared when the check that cleared it runs out", () => {
    const failed = withAnswer(ready, { item: "suction", answer: bad, at: "05:35" });
    // The ready room's own answer of 05:40, signed at 05:45, is the later pass.
    expect(judge(failed).state).toBe("ready");
    expect(rulesOf(lookedAt(failed, "+1 05:30"))).toEqual(["not-checked owed"]);
  });

  it("is not cleared by a pass that is not certainly later", () => {
    const paper = { source: "paper", earliest: moment("05:36"), latest: moment("05:50") } as const;
    const failed = withAnswer(ready, { item: "suction", answer: bad, at: "05:43", known: paper });
    expect(judge(failed).state).toBe("do-not-use");
  });

  it("goes with its part when that is no longer fitted", () => {
    const failed = withAnswer(ready, { item: "cylinder-gauge", subject: OXYGEN, answer: gauge(640), at: "05:50" });
    expect(judge(failed).state).toBe("do-not-use");
    const fitted = failed.workstation?.fitted;
    if (!fitted) throw new Error("the ready room has a workstation");
    const other = {
      ...fitted,
      cylinders: fitted.cylinders.map((one) =>
        one.id === OXYGEN.id ? { ...one, id: "cylinder-new", from: moment("05:55") } : one,
      ),
    };
    const swapped = { ...failed, workstation: failed.workstation && { ...failed.workstation, fitted: other } };
    expect(rulesOf(swapped).filter((line) => line.endsWith("stops"))).toEqual([]);
  });

  it("stops by the rule that names its item, also where the procedure does not ask for it", () => {
    const failed = withAnswer(ready, { item: "oxygen-flush", answer: bad, at: "05:50" });
    expect(rulesOf(failed)).toEqual(["oxygen-flush stops"]);
    const unasked = withAnswer(ready, {
      item: "water-trap",
      subject: { kind: "workstation", id: "workstation-1" },
      answer: bad,
      at: "05:50",
      check: null,
    });
    expect(rulesOf(unasked)).toEqual(["gas-sampling stops"]);
  });

  it("counts by the maker's verdict where that is the stricter", () => {
    const failed = withAnswer(ready, {
      item: "breathing-leak",
      answer: reading(60, "mL/min"),
      at: "05:50",
      makersVerdict: "fail",
    });
    expect(judge(failed).state).toBe("do-not-use");
    const lenient = withAnswer(ready, {
      item: "breathing-leak",
      answer: reading(300, "mL/min"),
      at: "05:50",
      makersVerdict: "pass",
    });
    expect(judge(lenient).state).toBe("do-not-use");
  });

  it("disappears when it was a slip that its own person corrected, and the item is owed again", () => {
    const begun = withCheck(unchecked(ready), { id: "today", started: "05:30" });
    const slip = withAnswer(begun, {
      id: "slip",
      item: "cylinder-gauge",
      subject: OXYGEN,
      answer: gauge(190),
      at: "05:35",
      check: "today",
    });
    expect(judge(slip).state).toBe("do-not-use");
    const corrected = withAnswer(slip, {
      item: "cylinder-gauge",
      subject: OXYGEN,
      answer: gauge(1900),
      at: "05:36",
      check: "today",
      supersedes: "slip",
    });
    expect(judge(corrected).state).toBe("to-check");
  });
});

describe("a passing answer", () => {
  const answers = (signed: Parameters<typeof withCheck>[1]["signed"]) =>
    withCheck(ready, { id: "check-daily", started: "05:30", signed });

  it("counts when its check is signed as performed", () => {
    expect(judge(answers([{ at: "05:45" }])).owed).toEqual([]);
    expect(judge(answers([])).state).toBe("to-check");
  });

  it("is not signed by a signature given before it was recorded", () => {
    expect(judge(answers([{ at: "05:39" }])).state).toBe("to-check");
    expect(judge(answers([{ at: "05:40" }])).owed).toEqual([]);
  });

  it("is not signed by a provider's confirmation of somebody else's answers", () => {
    const confirmed = answers([{ at: "05:45", by: PROVIDER, role: "provider", meaning: "confirmed" }]);
    expect(judge(confirmed).state).toBe("to-check");
  });

  it("recorded after the technician signed, is not signed by somebody else's confirmation either", () => {
    const late = answers([{ at: "05:39" }, { at: "05:45", by: PROVIDER, role: "provider", meaning: "confirmed" }]);
    expect(judge(late).owed).toHaveLength(ready.procedure?.owes.length ?? 0);
  });

  it("is signed by the confirmation of the provider who gave it", () => {
    const without = { ...ready, observations: ready.observations.filter(({ item }) => item !== "suction") };
    expect(judge(without).state).toBe("to-check");
    const own = withAnswer(without, { item: "suction", answer: reading(400, "mmHg"), at: "05:58", by: PROVIDER });
    expect(judge(own).owed).toEqual([]);
  });

  it("proves nothing when the gauge was read with its valve shut, and the reason says so", () => {
    const shut = withAnswer(
      { ...ready, observations: ready.observations.filter(({ subject }) => subject.id !== OXYGEN.id) },
      { item: "cylinder-gauge", subject: OXYGEN, answer: gauge(1900, "psi", { open: false }), at: "05:40" },
    );
    const judgement = judge(shut);
    expect(judgement.state).toBe("to-check");
    expect(owedLines(judgement.owed)).toEqual(["cylinder-gauge cylinder-o2 read-shut"]);
    expect(judgement.reasons[0]?.text).toBe("Read again with the valve open: cylinder gauge (oxygen, yoke 1)");
  });

  it("keeps a good reading good when the gauge is looked at later with the valve shut", () => {
    const later = withAnswer(ready, {
      item: "cylinder-gauge",
      subject: OXYGEN,
      answer: gauge(300, "psi", { open: false }),
      at: "06:05",
    });
    expect(judge(later).state).toBe("ready");
  });

  it("is judged by today's rule, whatever verdict it got", () => {
    const stricter = {
      ...ready,
      settings: {
        suction: {
          on: true,
          values: { atLeast: { value: 450, unit: "mmHg" } },
          version: 4,
          citation: "department policy 12",
        },
      },
    } satisfies Evidence;
    const [reason] = judge(stricter).reasons;
    expect(reason).toMatchObject({
      rule: "suction",
      severity: "stops",
      settingsVersion: 4,
      citation: "department policy 12",
    });
    expect(reason?.text).toBe("Suction 400 mmHg occluded (at least 450 mmHg)");
  });
});

describe("the validity of a check", () => {
  it.each([
    { at: "23:50", state: "ready" },
    { at: "+1 00:10", state: "ready" },
    { at: "+1 04:59", state: "ready" },
    { at: "+1 05:00", state: "to-check" },
    { at: "+1 05:01", state: "to-check" },
  ])("at $at it is $state", ({ at, state }) => {
    expect(judge(lookedAt(ready, at)).state).toBe(state);
  });

  it("keeps both marks as long as the check counts, and no longer", () => {
    expect(judge(lookedAt(ready, "+1 04:59")).marks).toMatchObject({
      equipment: { by: TECHNICIAN },
      provider: { by: PROVIDER },
    });
    expect(judge(lookedAt(ready, "+1 05:00")).marks).toEqual({ equipment: null, provider: null });
  });

  it("belongs to the night before when the check was done between midnight and 03:00", () => {
    const shifted = {
      ...unchecked(ready),
      checks: ready.checks.map((check) => ({
        ...check,
        startedAt: moment("02:00"),
        signed: check.signed.map((one) => ({ ...one, at: moment("02:30") })),
      })),
    };
    const answers = ready.observations.map((one) => ({
      ...one,
      observedAt: moment("02:10"),
      recordedAt: moment("02:10"),
    }));
    const night = { ...shifted, observations: answers };
    expect(judge(lookedAt(night, "04:59")).state).toBe("ready");
    expect(judge(lookedAt(night, "05:00")).state).toBe("to-check");
  });

  it("is not made longer by a recheck", () => {
    const dawn = withCheck(ready, {
      id: "recheck",
      kind: "recheck",
      started: "+1 04:00",
      signed: [{ at: "+1 04:05" }],
    });
    const rechecked = ready.observations.reduce(
      (evidence, one) =>
        withAnswer(evidence, {
          item: one.item,
          subject: one.subject,
          answer: one.answer,
          at: "+1 04:02",
          check: "recheck",
        }),
      dawn,
    );
    expect(judge(lookedAt(rechecked, "+1 04:30")).state).toBe("ready");
    const expired = judge(lookedAt(rechecked, "+1 05:00"));
    expect(expired.state).toBe("to-check");
    expect(expired.owed).toHaveLength(ready.procedure?.owes.length ?? 0);
  });

  it("says incomplete, and what is missing, when the signed check left items open", () => {
    const open = {
      ...ready,
      observations: ready.observations.filter(({ item }) => item !== "apl" && item !== "valves"),
    };
    const judgement = judge(open);
    expect(judgement.reasons.map(({ text }) => text)).toEqual([
      "Check incomplete: unidirectional valves and APL valve",
    ]);
    expect(owedLines(judgement.owed)).toEqual(["apl workstation-1 incomplete", "valves workstation-1 incomplete"]);
  });
});

describe("a case in the room", () => {
  const since = (time: string, confirmed = true): Evidence => ({
    ...ready,
    room: ready.room && { ...ready.room, occupancy: { state: "in-use", since: moment(time), confirmed } },
  });

  it("never lets the check run out under it, and lets it run out when it ends", () => {
    expect(judge(lookedAt(since("+1 04:50"), "+1 09:00")).state).toBe("ready");
    expect(judge(lookedAt(since("+1 05:10"), "+1 09:00")).state).toBe("to-check");
    expect(judge(lookedAt(ready, "+1 09:00")).state).toBe("to-check");
  });

  it("softens nothing when only the clock inferred it", () => {
    expect(judge(lookedAt(since("+1 04:50", false), "+1 09:00")).state).toBe("to-check");
    const failed = withAnswer(since("07:20", false), { item: "suction", answer: bad, at: "07:30" });
    expect(judge(lookedAt(failed, "07:31")).whenInUse).toBeNull();
  });

  it("says after this case for a stop, and act now where the supply itself fails", () => {
    const failed = withAnswer(since("07:20"), { item: "suction", subject: SUCTION, answer: bad, at: "07:30" });
    expect(judge(lookedAt(failed, "07:31"))).toMatchObject({
      state: "do-not-use",
      whenInUse: "after-this-case",
      decideBy: null,
    });
    const supply = withAnswer(since("07:20"), {
      item: "pipeline-pressure",
      subject: { kind: "pipeline", id: "oxygen" },
      answer: reading(30, "psi"),
      at: "07:30",
    });
    expect(judge(lookedAt(supply, "07:31")).whenInUse).toBe("act-now");
    expect(judge(since("07:20")).whenInUse).toBeNull();
  });
});

describe("the first user's check after service", () => {
  const serviced: Evidence = {
    ...ready,
    workstation: ready.workstation && { ...ready.workstation, firstUserCheckOwedSince: moment("05:35") },
    events: [
      {
        id: "service",
        kind: "serviced",
        subject: { kind: "workstation", id: "workstation-1" },
        at: moment("05:35"),
        zone: null,
      },
    ],
  };

  it("is owed whatever daily check was done that day", () => {
    expect(judge(serviced)).toMatchObject({ state: "to-check" });
    expect(rulesOf(serviced)).toContain("first-user-check owed");
  });

  it("is done by a signed check of that kind, begun after the service", () => {
    const asFirstUser = {
      ...serviced,
      checks: serviced.checks.map((check) => ({ ...check, kind: "first-user" as const, startedAt: moment("05:36") })),
    };
    expect(judge(asFirstUser).state).toBe("ready");
    const before = { ...serviced, checks: serviced.checks.map((check) => ({ ...check, kind: "first-user" as const })) };
    expect(judge(before).state).toBe("to-check");
  });
});

describe("marks", () => {
  it("gives both to a provider who did the whole check alone, where the site allows it", () => {
    const alone = withCheck(ready, {
      id: "check-daily",
      started: "05:30",
      signed: [{ at: "05:45", by: PROVIDER, role: "provider" }],
    });
    expect(judge(alone).marks).toEqual({
      equipment: { by: PROVIDER, role: "provider", at: moment("05:45") },
      provider: { by: PROVIDER, role: "provider", at: moment("05:45") },
    });
    const two = {
      ...alone,
      settings: { "check-marks": { on: true, values: { providerAlone: false }, version: 2, citation: "policy" } },
    };
    expect(judge(two).marks.provider).toBeNull();
  });

  it("wants the provider to look after the equipment was checked, not before", () => {
    const early = withCheck(ready, {
      id: "check-daily",
      started: "05:30",
      signed: [{ at: "05:45" }, { at: "05:44", by: PROVIDER, role: "provider", meaning: "confirmed" }],
    });
    expect(judge(early).marks.provider).toBeNull();
    expect(rulesOf(early)).toEqual(["provider-mark-owed due"]);
  });

  it("shows the equipment mark of a check that found failures", () => {
    const failed = withAnswer(ready, { item: "suction", answer: bad, at: "05:44" });
    expect(judge(failed)).toMatchObject({ state: "do-not-use", marks: { equipment: { by: TECHNICIAN } } });
  });

  it("asks for no provider's mark on a spare or in a closed room", () => {
    const unsigned = withCheck(ready, { id: "check-daily", started: "05:30", signed: [{ at: "05:45" }] });
    expect(rulesOf(unsigned)).toEqual(["provider-mark-owed due"]);
    expect(
      rulesOf({
        ...unsigned,
        room: unsigned.room && { ...unsigned.room, occupancy: { state: "closed", since: moment("05:00") } },
      }),
    ).toEqual([]);
    const spare = {
      ...unsigned,
      room: null,
      procedure: unsigned.procedure && {
        ...unsigned.procedure,
        owes: unsigned.procedure.owes.filter(({ subject }) => subject.kind !== "room" && subject.kind !== "pipeline"),
      },
    };
    expect(judge(spare)).toMatchObject({ state: "ready", reasons: [] });
  });
});

describe("the provider's mark after the first case began", () => {
  const unconfirmed = withCheck(ready, { id: "check-daily", started: "05:30", signed: [{ at: "05:45" }] });

  it("turns from owed to missing at the first case, by the clock alone", () => {
    expect(judge(unconfirmed).goodUntil).toBe(moment("07:15"));
    expect(rulesOf(lookedAt(unconfirmed, "07:14"))).toEqual(["provider-mark-owed due"]);
    expect(rulesOf(lookedAt(unconfirmed, "07:15"))).toEqual(["countersign due"]);
  });

  it("is asked for only where the room could start, and countersigned where a case began without it", () => {
    const failed = withAnswer(unconfirmed, { item: "suction", answer: bad, at: "05:50" });
    expect(rulesOf(failed)).toEqual(["suction stops"]);
    expect(rulesOf(lookedAt(failed, "07:15"))).toEqual(["suction stops"]);
    const since = { state: "in-use", since: moment("07:15"), confirmed: true } as const;
    const begun = { ...failed, room: failed.room && { ...failed.room, occupancy: since } };
    expect(rulesOf(lookedAt(begun, "07:15"))).toEqual(["suction stops", "countersign due"]);
  });
});

describe("spent absorbent found in the middle of a list", () => {
  it("waits for the end of the case, and stops the next morning", () => {
    const colour = {
      item: "absorbent-colour",
      subject: { kind: "absorbent", id: "absorbent-1" },
      answer: chosen("two-thirds"),
      at: "08:00",
      check: null,
    } as const;
    const found = withAnswer(ready, colour);
    expect(rulesOf(lookedAt(found, "09:00"))).toEqual(["absorbent-colour stops"]);
    const measured = withAnswer(
      withCheck(found, { id: "look", kind: "recheck", started: "08:01", signed: [{ at: "08:05" }] }),
      {
        item: "absorbent-co2",
        subject: colour.subject,
        answer: reading(0.4, "%"),
        at: "08:02",
        check: "look",
      },
    );
    expect(rulesOf(lookedAt(measured, "09:00"))).toEqual(["absorbent-colour due"]);
    expect(judge(lookedAt(measured, "09:00")).goodUntil).toBe(moment("+1 05:00"));
    expect(rulesOf(lookedAt(measured, "+1 05:00"))).toEqual(["absorbent-colour stops", "not-checked owed"]);
  });
});

describe("the time to decide", () => {
  it("is the first case less the time of a swap, for a room that is not ready", () => {
    const failed = withAnswer(ready, { item: "suction", answer: good, at: "05:50" });
    expect(judge(failed).decideBy).toBeNull();
    expect(judge(unchecked(ready)).decideBy).toBe(moment("06:50"));
    const quick = {
      ...unchecked(ready),
      settings: { morning: { on: true, values: { swap: { value: 10, unit: "min" } }, version: 2, citation: "policy" } },
    } satisfies Evidence;
    expect(judge(quick).decideBy).toBe(moment("07:05"));
  });
});
