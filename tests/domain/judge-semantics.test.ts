import { describe, expect, it } from "vitest";
import type { Evidence, RuleSetting } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { RULES } from "@/lib/domain/rules/all";
import {
  about,
  answered,
  bad,
  gauge,
  good,
  reading,
  unchecked,
  withRoom,
  withValues,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { quantity } from "@/lib/units/quantity";
import { localDate } from "@/lib/units/time";
import { lookedAt, moment, withAnswer, withCheck, withEvent } from "@/tests/support/evidence-changes";
import { cylinderOf, readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom();
const WORKSTATION = { kind: "workstation", id: "workstation-1" } as const;
const lines = (evidence: Evidence) => judge(evidence).reasons.map(({ rule, severity }) => `${rule} ${severity}`);
const inUse = (evidence: Evidence, since: string, confirmed = true): Evidence =>
  withRoom(evidence, { occupancy: { state: "in-use", since: moment(since), confirmed } });
const windowTo = (date: string) => [
  { plan: "annual", due: localDate("2026-02-20"), window: { from: localDate("2026-02-10"), to: localDate(date) } },
];

describe("whose setting stands", () => {
  const at = (psi: number, version: number): RuleSetting => ({
    on: true,
    values: { atLeast: quantity(psi, "psi") },
    version,
    citation: `policy ${version}`,
  });
  const low = answered(ready, "cylinder-gauge", gauge(700), ({ id }) => id === cylinderOf(ready, "oxygen").id);
  const layered = (site: number | null, procedure: number | null, model: number | null): Evidence => {
    const settings = (psi: number | null, version: number) =>
      psi === null ? undefined : { "reserve-oxygen-low": at(psi, version) };
    const made = withWorkstation(low, (workstation) => ({
      model: { ...workstation.model, settings: settings(model, 3) },
    }));
    return {
      ...made,
      settings: settings(site, 1) ?? {},
      procedure: made.procedure && { ...made.procedure, settings: settings(procedure, 2) },
    };
  };

  it.each([
    { site: null, procedure: null, model: null, stops: true, because: "shipped 1,000" },
    { site: 600, procedure: null, model: null, stops: false, because: "the site's 600" },
    { site: 600, procedure: 800, model: null, stops: true, because: "the procedure's 800 over the site" },
    { site: 600, procedure: 800, model: 650, stops: false, because: "the model's 650 over both" },
    { site: 600, procedure: null, model: 750, stops: true, because: "the model's 750 over the site" },
    { site: 900, procedure: 500, model: null, stops: false, because: "the procedure's 500 over the site" },
  ])("is $because, for 700 psi", ({ site, procedure, model, stops }) => {
    const evidence = layered(site, procedure, model);
    expect(lines(evidence).includes("reserve-oxygen-low stops")).toBe(stops);
  });

  it("says which version judged, and keeps what the nearer one leaves alone", () => {
    const evidence = layered(900, null, 750);
    expect(judge(evidence).reasons[0]).toMatchObject({ settingsVersion: 3, citation: "policy 3" });
    const silent = withWorkstation(low, ({ model }) => ({
      model: { ...model, settings: { "reserve-oxygen-low": { values: {}, version: 4, citation: "" } } },
    }));
    const off = { ...silent, settings: { "reserve-oxygen-low": { ...at(1000, 1), on: false } } };
    expect(lines(off)).not.toContain("reserve-oxygen-low stops");
    const onAgain = withWorkstation(off, ({ model }) => ({
      model: { ...model, settings: { "reserve-oxygen-low": { on: true, values: {}, version: 4, citation: "" } } },
    }));
    expect(lines(onAgain)).toContain("reserve-oxygen-low stops");
  });
});

describe("under a running case the clock flips nothing", () => {
  const late = withWorkstation(ready, () => ({ serviceDue: windowTo("2026-03-03") }));

  it("keeps a service window open that ends meanwhile, and closes it for the next case", () => {
    expect(lines(lookedAt(late, "+1 00:01"))).toContain("service-late limits");
    const running = inUse(late, "22:00");
    expect(lines(lookedAt(running, "+1 00:01"))).toContain("service-late due");
    expect(judge(lookedAt(running, "23:00")).goodUntil).toBeNull();
    expect(lines(lookedAt(withRoom(running, { occupancy: { state: "idle" } }), "+1 00:01"))).toContain(
      "service-late limits",
    );
  });

  it("keeps a vaporizer whose calibration ends meanwhile", () => {
    const ends = withWorkstation(ready, ({ fitted }) => ({
      fitted: {
        ...fitted,
        vaporizers: fitted.vaporizers.map((one) => ({
          ...one,
          calibration: { due: localDate("2026-03-01"), windowTo: localDate("2026-03-03") },
        })),
      },
    }));
    expect(judge(lookedAt(inUse(ends, "22:00"), "+1 00:01")).limits).toEqual([]);
    expect(judge(lookedAt(ends, "+1 00:01")).limits).toContain("intravenous-only");
  });

  it("keeps what was allowed until the case ends, and stops the next one", () => {
    const limited = withWorkstation(answered(ready, "battery", bad), () => ({
      allowed: [
        { rule: "battery", by: [{ person: "c", role: "charge-provider" }], measures: "mains", until: moment("09:00") },
      ],
    }));
    expect(judge(lookedAt(inUse(limited, "08:00"), "09:30")).state).toBe("ready-limited");
    expect(judge(lookedAt(inUse(limited, "09:10"), "09:30")).state).toBe("do-not-use");
    expect(judge(lookedAt(limited, "09:30")).state).toBe("do-not-use");
  });

  it("is not softened by a case that the clock inferred", () => {
    expect(lines(lookedAt(inUse(late, "22:00", false), "+1 00:01"))).toContain("service-late limits");
  });
});

describe("emergency use", () => {
  const used = withEvent(ready, "emergency-use", WORKSTATION, "06:05");

  it("leaves the whole check owed, and no mark of the one before", () => {
    const judgement = judge(used);
    expect(judgement.state).toBe("to-check");
    expect(judgement.marks).toEqual({ equipment: null, provider: null });
    expect(judgement.owed.length).toBe(ready.procedure?.owes.length);
    expect(judgement.reasons.map(({ rule }) => rule)).toContain("not-checked");
  });

  it("does not change a room that may not start, while the case runs and after it", () => {
    const stopped = answered(used, "suction", bad);
    expect(judge(inUse(stopped, "06:05")).state).toBe("do-not-use");
    expect(judge(inUse(stopped, "06:05")).whenInUse).toBe("after-this-case");
    expect(judge(stopped).state).toBe("do-not-use");
  });

  it("is settled by a whole check begun after it, and not by a recheck", () => {
    const again = (kind: "daily" | "recheck") => {
      const check = withCheck(used, { id: "after", kind, started: "06:06", signed: [{ at: "06:09" }] });
      return (ready.procedure?.owes ?? []).reduce<Evidence>((evidence, { item, subject }) => {
        const answer = ready.observations.find((one) => one.item === item && one.subject.id === subject.id)?.answer;
        return withAnswer(evidence, { item, subject, answer: answer ?? good, at: "06:08", check: "after" });
      }, check);
    };
    expect(judge(again("daily")).state).toBe("ready");
    expect(judge(again("recheck")).state).toBe("to-check");
  });
});

describe("a limit that people allow", () => {
  const late = withWorkstation(ready, () => ({ serviceDue: windowTo("2026-03-01") }));
  const allowedBy = (by: { person: string; role: "biomedical-engineer" | "manager" }[]) =>
    withWorkstation(late, () => ({
      allowed: [{ rule: "service-late", by, measures: "looked over", until: moment("+2 12:00") }],
    }));

  it("needs two people where two roles must agree: one person with both roles agrees only with himself", () => {
    const isAllowed = (evidence: Evidence) => judge(evidence).reasons[0]?.allowedUntil !== null;
    expect(isAllowed(allowedBy([{ person: "a", role: "biomedical-engineer" }]))).toBe(false);
    expect(
      isAllowed(
        allowedBy([
          { person: "a", role: "biomedical-engineer" },
          { person: "a", role: "manager" },
        ]),
      ),
    ).toBe(false);
    expect(
      isAllowed(
        allowedBy([
          { person: "a", role: "biomedical-engineer" },
          { person: "b", role: "manager" },
        ]),
      ),
    ).toBe(true);
  });

  it("is allowed for what it names alone", () => {
    const gone = answered(ready, "vaporizer-seated", bad, about("vaporizer-sevo"));
    const allowed = (subject: string) =>
      withWorkstation(gone, () => ({
        allowed: [
          {
            rule: "vaporizer-lost",
            by: [{ person: "c", role: "charge-provider" }],
            measures: "the other agent",
            until: moment("15:00"),
            subject: { kind: "vaporizer", id: subject },
          },
        ],
      }));
    expect(judge(allowed("vaporizer-sevo")).reasons[0]?.allowedUntil).toBe(moment("15:00"));
    expect(judge(allowed("vaporizer-des")).reasons[0]?.allowedUntil).toBeNull();
  });

  it.each(RULES.filter(({ allowedBy }) => allowedBy.length > 0).map((rule) => [rule.id, rule] as const))(
    "%s says what is done first, what is done otherwise, and for how long at most",
    (_id, { use }) => {
      expect(use?.first.trim()).toBeTruthy();
      expect(use?.differently.trim()).toBeTruthy();
    },
  );
});

describe("functions lost one by one", () => {
  it("names the agent that is gone", () => {
    const { limits, state, readyForList } = judge(answered(ready, "vaporizer-seated", bad, about("vaporizer-des")));
    expect({ limits, state, readyForList }).toEqual({
      limits: ["no-desflurane"],
      state: "ready-limited",
      readyForList: true,
    });
  });

  it("takes mechanical ventilation away with the gas that drives it, and acts at once under a case", () => {
    const driven = withWorkstation(ready, ({ model }) => ({ model: { ...model, driveGas: "air" } }));
    const lost = answered(driven, "pipeline-pressure", reading(30, "psi"), about("air"));
    const judgement = judge(lost);
    expect(judgement.limits).toEqual(["no-mechanical-ventilation", "no-air"]);
    expect(judgement).toMatchObject({ state: "ready-limited", readyForList: false });
    const sedations = withRoom(lost, { list: ready.room?.list ? { ...ready.room.list, needs: ["sedation"] } : null });
    expect(judge(sedations).readyForList).toBe(true);
  });

  it("keeps a quarantined function lost whatever a look says, until it is released", () => {
    const held = withWorkstation(answered(ready, "ventilator", good), () => ({
      quarantine: [{ subject: WORKSTATION, item: "ventilator", since: moment("05:00") }],
    }));
    expect(lines(held)).toEqual(["ventilator stops"]);
    expect(lines(withWorkstation(held, () => ({ quarantine: [] })))).toEqual([]);
  });

  it("pulls a recalled workstation after the case, or at once", () => {
    const recalled = (decision: "pull-now" | "pull-at-next-case") =>
      inUse(
        withWorkstation(ready, () => ({ recalls: [{ id: "R-7", decision }] })),
        "06:05",
      );
    expect(judge(recalled("pull-at-next-case")).whenInUse).toBe("after-this-case");
    expect(judge(recalled("pull-now")).whenInUse).toBe("act-now");
  });
});

describe("a check of another workstation", () => {
  const swapped = (workstation: string | null) => ({
    ...ready,
    checks: ready.checks.map((check) => ({ ...check, workstation })),
  });

  it("gives this one neither a mark nor a check, and still signs what was seen of the room", () => {
    expect(judge(swapped("workstation-1")).state).toBe("ready");
    expect(judge(swapped(null)).state).toBe("ready");
    const other = judge(swapped("workstation-9"));
    expect(other.state).toBe("to-check");
    expect(other.marks).toEqual({ equipment: null, provider: null });
  });
});

describe("a fault in words", () => {
  it("says when nobody looked in time, from that minute on", () => {
    const reported = withWorkstation(ready, () => ({
      faults: [{ id: "f", text: "screen flickers", wouldNotUse: false, lookedAt: false, reportedAt: moment("05:30") }],
    }));
    expect(judge(reported).reasons.map(({ text }) => text)).toEqual(["Fault reported: screen flickers"]);
    expect(judge(reported).goodUntil).toBe(moment("06:30"));
    expect(judge(lookedAt(reported, "06:30")).reasons[0]?.text).toBe(
      "Fault reported, not looked at within 60 min: screen flickers",
    );
  });
});

describe("three failures in a week", () => {
  it("counts an item once a check day, and nothing of the room", () => {
    const failed = (times: string[], item: "breathing-leak" | "suction") =>
      times.reduce<Evidence>((evidence, at, order) => {
        const subject = item === "suction" ? ({ kind: "room", id: "room-a1" } as const) : WORKSTATION;
        return withAnswer(evidence, { id: `f-${order}`, item, subject, answer: bad, at, check: null });
      }, ready);
    const counted = (evidence: Evidence) => lines(evidence).includes("repeated-failures due");
    expect(counted(failed(["05:31", "05:32", "05:33"], "breathing-leak"))).toBe(false);
    expect(counted(failed(["05:31", "-1 05:32", "-2 05:33"], "breathing-leak"))).toBe(true);
    expect(counted(failed(["05:31", "-1 05:32", "-2 05:33"], "suction"))).toBe(false);
  });
});

describe("an answer of another kind than was asked", () => {
  it("proves nothing about a question of yes or no", () => {
    for (const answer of [reading(0, "psi"), { kind: "choice", choice: "fine" } as const]) {
      expect(judge(answered(ready, "apl", answer)).state).toBe("to-check");
      expect(judge(answered(ready, "self-inflating-bag", answer)).state).toBe("to-check");
    }
  });
});

describe("a tolerance", () => {
  it("includes its own ends as they are written", () => {
    const within = (value: number) =>
      withValues(answered(ready, "oxygen-in-air", reading(value, "%")), "oxygen-in-air", {
        within: quantity(0.96, "%"),
      });
    expect(judge(within(21.96)).state).toBe("ready");
    expect(judge(within(20.04)).state).toBe("ready");
    expect(judge(within(21.97)).state).toBe("do-not-use");
  });
});

describe("a vapor-free preparation", () => {
  const list = ready.room?.list ? { ...ready.room.list, needs: ["vapor-free" as const] } : null;
  const off = withRoom(
    withWorkstation(ready, ({ fitted }) => ({ fitted: { ...fitted, vaporizers: [] } })),
    { list },
  );
  const prepared = withAnswer(
    withCheck(off, { id: "prepared", kind: "recheck", started: "05:46", signed: [{ at: "05:59" }] }),
    { item: "vapor-free", subject: WORKSTATION, answer: reading(60, "min"), at: "05:58", check: "prepared" },
  );

  it("makes the room ready for its list, and ends when a vaporizer is mounted", () => {
    expect(judge(off)).toMatchObject({ state: "ready-limited", readyForList: false, limits: ["not-vapor-free"] });
    expect(judge(prepared)).toMatchObject({ state: "ready", readyForList: true });
    expect(judge(prepared).reasons.map(({ text }) => text)).toEqual(["Prepared vapor-free at 05:58"]);
    const mounted = withWorkstation(prepared, ({ fitted }) => ({
      fitted: { ...fitted, vaporizers: ready.workstation?.fitted.vaporizers ?? [] },
    }));
    expect(judge(mounted)).toMatchObject({ readyForList: false });
    const removedAgain = withEvent(prepared, "vaporizer-fitted", WORKSTATION, "06:05");
    expect(judge(removedAgain)).toMatchObject({ readyForList: false });
  });

  it("says nothing to a room that does not need it", () => {
    expect(lines(unchecked(ready))).toEqual(["not-checked owed"]);
  });
});

describe("a rule that is switched off", () => {
  const off = (evidence: Evidence, ...rules: string[]): Evidence => ({
    ...evidence,
    settings: Object.fromEntries(
      rules.map((rule) => [rule, { on: false, values: {}, version: 1, citation: "policy" }]),
    ),
  });

  it("says nothing, and fails nothing", () => {
    expect(judge(off(answered(ready, "suction", bad), "suction")).state).toBe("ready");
  });

  it("never leaves a state without its reason", () => {
    const unseen = off(unchecked(ready), "not-checked", "recheck-owed", "first-user-check");
    expect(judge(unseen)).toMatchObject({ state: "to-check", reasons: [{ rule: "not-checked" }] });
    const empty = off({ ...ready, workstation: null, procedure: null }, "no-workstation");
    expect(judge(empty)).toMatchObject({ state: "out-of-service", reasons: [{ rule: "no-workstation" }] });
  });
});

describe("what failed first and then passed", () => {
  const failed = withAnswer(ready, { id: "first", item: "breathing-leak", answer: bad, at: "05:32" });

  it("is told until the check day turns, with the cause that was given", () => {
    const told = (at: string) =>
      judge(lookedAt(failed, at)).reasons.flatMap(({ rule, text }) => (rule === "failed-then-passed" ? [text] : []));
    expect(told("06:10")).toEqual(["Breathing-system leak failed first, then passed"]);
    expect(judge(failed).goodUntil).toBe(moment("+1 03:00"));
    expect(told("+1 02:59")).toHaveLength(1);
    expect(told("+1 03:00")).toEqual([]);
  });
});

describe("one calibration that ends before the other", () => {
  it("ends what was said, to the moment", () => {
    const ends = withWorkstation(ready, ({ fitted }) => ({
      fitted: {
        ...fitted,
        vaporizers: fitted.vaporizers.map((one, order) => {
          const windowTo = localDate(order === 0 ? "2026-03-03" : "2026-12-01");
          return { ...one, calibration: { due: windowTo, windowTo } };
        }),
      },
    }));
    expect(judge(ends)).toMatchObject({ state: "ready", limits: [], goodUntil: moment("+1 00:00") });
    expect(judge(lookedAt(ends, "+1 00:00")).limits).toEqual(["no-sevoflurane"]);
  });
});

describe("the words of a reason", () => {
  it("say that the maker's own test failed where our limit would pass, with its number", () => {
    const strict = withAnswer(ready, {
      item: "breathing-leak",
      answer: reading(60, "mL/min"),
      at: "05:50",
      makersVerdict: "fail",
    });
    expect(judge(strict).reasons.map(({ text }) => text)).toEqual([
      "Breathing-system leak test failed: the maker's own test failed it, 60 mL/min",
    ]);
    const both = withAnswer(ready, {
      item: "breathing-leak",
      answer: reading(160, "mL/min"),
      at: "05:50",
      makersVerdict: "fail",
    });
    expect(judge(both).reasons.map(({ text }) => text)).toEqual([
      "Breathing system leaks 160 mL/min at 30 cmH₂O (at most 150 mL/min)",
    ]);
  });

  it("say quarantined for a function that is, and not that it failed by a look", () => {
    const held = withWorkstation(ready, () => ({
      quarantine: [{ subject: WORKSTATION, item: "ventilator", since: moment("05:00") }],
    }));
    expect(judge(held).reasons.map(({ text }) => text)).toEqual(["Ventilator fails (quarantined)"]);
  });
});

describe("a service that was only recorded as an event", () => {
  it("owes the first user's check until a whole check was begun after it", () => {
    const serviced = withEvent(ready, "serviced", WORKSTATION, "06:00");
    expect(lines(serviced)).toContain("first-user-check owed");
    const before = withEvent(ready, "serviced", WORKSTATION, "05:00");
    expect(judge(before).state).toBe("ready");
  });
});
