import { describe, expect, it } from "vitest";
import type { Evidence } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { PERMISSIONS } from "@/lib/domain/permission";
import {
  answered,
  bad,
  chosen,
  cylinderOf,
  gauge,
  unanswered,
  unchecked,
  withRoom,
  withValues,
  withWorkstation,
} from "@/lib/domain/rules/examples";
import { tasksFor } from "@/lib/domain/task/decide";
import type { TaskPlace } from "@/lib/domain/task/model";
import { orderTasks } from "@/lib/domain/task-order";
import { quantity } from "@/lib/units/quantity";
import { instantOf, localDate } from "@/lib/units/time";
import { lookedAt, moment, withAnswer, withCheck, withEvent } from "@/tests/support/evidence-changes";
import { readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom();
const tasksOf = (evidence: Evidence) => tasksFor(judge(evidence), evidence);
const keysOf = (evidence: Evidence) => tasksOf(evidence).map(({ key }) => key);
const closed = { state: "closed", since: moment("05:00") } as const;

describe("the work that follows from a judgement", () => {
  it("is none for a ready room", () => {
    expect(tasksOf(ready)).toEqual([]);
  });

  it("is one task for a whole unchecked room", () => {
    const [task, ...others] = tasksOf(unchecked(ready));
    expect(others).toEqual([]);
    expect(task).toMatchObject({
      key: "check:workstation-1",
      kind: "check",
      checkKind: "daily",
      title: "Daily machine check",
      why: "Not checked yet",
      severity: "owed",
      minutes: 15,
      mayDo: PERMISSIONS["start-check"],
    });
    expect(task?.items).toHaveLength(ready.procedure?.owes.length ?? 0);
  });

  it("is those two items alone for a signed check that left two open", () => {
    const open = unanswered(unanswered(ready, "apl"), "valves");
    expect(tasksOf(open)).toMatchObject([
      {
        key: "recheck:workstation-1",
        kind: "recheck",
        minutes: 4,
        why: "Check incomplete: unidirectional valves and APL valve",
        items: [{ item: "valves" }, { item: "apl" }],
      },
    ]);
  });

  it("is the recheck alone after an event, with exactly what is owed", () => {
    const changed = withEvent(ready, "absorbent-changed", { kind: "absorbent", id: "absorbent-1" }, "06:00");
    expect(tasksOf(changed)).toMatchObject([
      {
        key: "recheck:workstation-1",
        kind: "recheck",
        checkKind: "recheck",
        minutes: 2,
        items: [{ item: "breathing-leak", subject: { id: "workstation-1" } }],
        mayDo: PERMISSIONS["finish-task"],
      },
    ]);
  });

  it("is a swap for a low cylinder, by who may swap, and the same task while it gets worse", () => {
    const low = answered(ready, "cylinder-gauge", gauge(1150), cylinderOf(ready, "oxygen"));
    const lower = answered(ready, "cylinder-gauge", gauge(640), cylinderOf(ready, "oxygen"));
    expect(tasksOf(low)).toMatchObject([
      {
        key: "swap-cylinder:cylinder-o2",
        kind: "swap-cylinder",
        severity: "due",
        title: "Swap oxygen, yoke 1 (E)",
        mayDo: PERMISSIONS["swap-cylinder"],
      },
    ]);
    expect(tasksOf(lower)).toMatchObject([
      { key: "swap-cylinder:cylinder-o2", kind: "swap-cylinder", severity: "stops" },
    ]);
    expect(tasksOf(lower)[0]?.items.map(({ item }) => item)).toEqual(["cylinder-gauge", "yoke-leak"]);
  });

  it("is clearing what failed, with the item that must be answered about its own subject", () => {
    const failed = answered(ready, "vaporizer-fill", chosen("quarter"), ({ id }) => id === "vaporizer-sevo");
    expect(tasksOf(failed)).toMatchObject([
      {
        key: "clear:vaporizer-fill:vaporizer:vaporizer-sevo",
        kind: "clear",
        severity: "due",
        items: [{ item: "vaporizer-fill", subject: { kind: "vaporizer", id: "vaporizer-sevo" } }],
      },
    ]);
    expect(tasksOf(answered(ready, "ventilator", bad))).toMatchObject([
      { key: "clear:ventilator:workstation:workstation-1", items: [{ item: "ventilator" }] },
    ]);
  });

  it("keeps two failed items of one machine as two tasks", () => {
    expect(new Set(keysOf(answered(answered(ready, "ventilator", bad), "apl", bad))).size).toBe(2);
  });

  it("is the provider's alone for the provider's check, and only where the room could start", () => {
    const unconfirmed = withCheck(ready, { id: "check-daily", started: "05:30", signed: [{ at: "05:45" }] });
    expect(tasksOf(unconfirmed)).toMatchObject([
      { key: "confirm:workstation-1", kind: "confirm", mayDo: PERMISSIONS["confirm-check"] },
    ]);
    expect(keysOf(answered(unconfirmed, "ventilator", bad))).not.toContain("confirm:workstation-1");
    expect(keysOf(lookedAt(unconfirmed, "07:20"))).toEqual(["confirm:workstation-1"]);
  });

  it("is a decision by who may allow it, beside the repair, until somebody has", () => {
    const limited = answered(ready, "battery", bad);
    expect(keysOf(limited)).toEqual([
      "allow:battery:workstation:workstation-1",
      "clear:battery:workstation:workstation-1",
    ]);
    expect(tasksOf(limited)[0]).toMatchObject({ kind: "allow", mayDo: ["charge-provider"] });
    const allowed = withWorkstation(limited, () => ({
      allowed: [
        { rule: "battery", by: [{ person: "p", role: "charge-provider" }], measures: "", until: moment("17:00") },
      ],
    }));
    expect(keysOf(allowed)).toEqual(["clear:battery:workstation:workstation-1"]);
  });

  it("is biomedical engineering's for service, and its holder's for a hold", () => {
    const window = { from: localDate("2026-03-01"), to: localDate("2026-03-20") };
    const due = withWorkstation(ready, () => ({
      serviceDue: [{ plan: "annual service", due: localDate("2026-03-10"), window }],
    }));
    expect(tasksOf(due)).toMatchObject([{ kind: "clear", rule: "service-late", mayDo: ["biomedical-engineer"] }]);
    const held = withWorkstation(ready, () => ({
      holds: [{ id: "h", by: "p", role: "technician", reason: "noise", since: moment("06:00") }],
    }));
    expect(tasksOf(held)).toMatchObject([
      { kind: "clear", rule: "held", title: "Held: noise", mayDo: PERMISSIONS["lift-hold"] },
    ]);
  });

  it("is one task for each hold and each service plan, with a key that stays", () => {
    const hold = (id: string, reason: string) =>
      ({ id, by: "p", role: "technician", reason, since: moment("06:00") }) as const;
    const two = withWorkstation(ready, () => ({ holds: [hold("a", "noise"), hold("b", "smell")] }));
    const one = withWorkstation(ready, () => ({ holds: [hold("b", "smell")] }));
    expect(new Set(keysOf(two)).size).toBe(2);
    expect(keysOf(two)).toContain(keysOf(one)[0]);
  });

  it("leaves a closed room its repairs, and asks for no check of it", () => {
    expect(keysOf(withRoom(unchecked(ready), { occupancy: closed }))).toEqual([]);
    expect(keysOf(withRoom(answered(ready, "ventilator", bad), { occupancy: closed }))).toEqual([
      "clear:ventilator:workstation:workstation-1",
    ]);
  });

  it("asks for no check of a machine that is out of service, and for one of its kind after service", () => {
    const inService = withWorkstation(unchecked(ready), () => ({ serviceOpen: true }));
    expect(tasksOf(inService)).toMatchObject([{ kind: "clear", rule: "withdrawn", mayDo: ["biomedical-engineer"] }]);
    const released = withWorkstation(ready, () => ({ firstUserCheckOwedSince: moment("05:50") }));
    expect(tasksOf(released)).toMatchObject([
      { key: "check:workstation-1", checkKind: "first-user", title: "First-user check", minutes: 15 },
    ]);
  });

  it("takes its minutes from the site", () => {
    expect(tasksOf(withValues(unchecked(ready), "morning", { fullCheck: quantity(22, "min") }))[0]?.minutes).toBe(22);
  });

  it("has a key for each thing, whatever happens in the room", () => {
    const everything = ready.observations.reduce(
      (evidence, one) =>
        withAnswer(evidence, { item: one.item, subject: one.subject, answer: bad, at: "06:00", check: null }),
      ready,
    );
    const keys = keysOf(everything);
    expect(keys.length).toBeGreaterThan(15);
    expect(new Set(keys).size).toBe(keys.length);
  });
});

describe("the order of the work", () => {
  const now = instantOf(moment("06:10"));
  type Draft = Parameters<typeof orderTasks>[0][number];
  const task = (key: string, more: Partial<Draft & TaskPlace> = {}): Draft => ({
    key,
    severity: "owed",
    minutes: 15,
    roomName: key,
    walkingOrder: 1,
    firstCase: moment("07:15"),
    setUpMinutes: 0,
    claimed: false,
    ...more,
  });
  const order = (...tasks: Draft[]) => orderTasks(tasks, now).map(({ task: one }) => one.key);

  it("puts what would make a first case late before everything that would not", () => {
    const stops = task("stops", { severity: "stops", minutes: 6, firstCase: moment("08:00") });
    const late = task("late", { firstCase: moment("06:20") });
    expect(order(stops, late)).toEqual(["late", "stops"]);
    expect(orderTasks([late], now)[0]?.placed).toBe(
      "First case 5 min late if begun now, needed before the room can start",
    );
  });

  it("counts the set-up before the case", () => {
    expect(
      order(
        task("plain", { firstCase: moment("06:40") }),
        task("cardiac", { firstCase: moment("07:00"), setUpMinutes: 45 }),
      ),
    ).toEqual(["cardiac", "plain"]);
  });

  it("goes by severity, then by the first case, then by the longer set-up, then by the way", () => {
    expect(order(task("owed"), task("stops", { severity: "stops" }))).toEqual(["stops", "owed"]);
    expect(order(task("later", { firstCase: moment("08:00") }), task("sooner"))).toEqual(["sooner", "later"]);
    expect(
      order(
        task("short", { firstCase: moment("07:15") }),
        task("long", { firstCase: moment("07:45"), setUpMinutes: 30 }),
      ),
    ).toEqual(["long", "short"]);
    expect(order(task("far", { walkingOrder: 9 }), task("near", { walkingOrder: 2 }))).toEqual(["near", "far"]);
    expect(order(task("B10", { walkingOrder: 3 }), task("B2", { walkingOrder: 3 }))).toEqual(["B2", "B10"]);
  });

  it("does last what no start waits for, and never calls it late", () => {
    const due = task("due", { severity: "due", firstCase: moment("06:11"), minutes: 30 });
    expect(order(due, task("owed", { firstCase: null }))).toEqual(["owed", "due"]);
    expect(orderTasks([due], now)[0]?.placed).toBe("Due, does not stop the start, then by walking order");
  });

  it("never moves what somebody has begun", () => {
    const begun = task("begun", { severity: "due", claimed: true });
    expect(order(task("late", { firstCase: moment("06:12") }), begun)).toEqual(["begun", "late"]);
    expect(orderTasks([begun], now)[0]?.placed).toBe("Begun: stays where it is");
  });

  it("puts rooms without a first case behind those with one, and is the same however the list comes", () => {
    const tasks = [
      task("a", { firstCase: null }),
      task("b"),
      task("c", { severity: "stops", firstCase: null }),
      task("d", { walkingOrder: 0 }),
    ];
    expect(order(...tasks)).toEqual(["c", "d", "b", "a"]);
    expect(order(...[...tasks].reverse())).toEqual(order(...tasks));
  });
});
