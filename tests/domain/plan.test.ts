import { describe, expect, it } from "vitest";
import { dice } from "@/lib/domain/dice";
import { planWork } from "@/lib/domain/plan/decide";
import { type PlanPerson, type PlanTask, USUAL_WEIGHTS } from "@/lib/domain/plan/model";
import { boardOf, planCost } from "@/lib/domain/plan-cost";
import { type Instant, instantAt, instantOf, later, localDate, localTime, MINUTE } from "@/lib/units/time";
import { MORNING, randomMorning } from "@/tests/support/small-mornings";

const at = (minutes: number): Instant => later(MORNING, minutes * MINUTE);

function task(key: string, change: Partial<PlanTask> = {}): PlanTask {
  return {
    key,
    roomId: `room of ${key}`,
    roomName: `room of ${key}`,
    walkingOrder: 1,
    minutes: 10,
    severity: "owed",
    mayDo: ["technician"],
    readyBy: at(60),
    setUpMinutes: 0,
    begun: null,
    lacksParts: false,
    ...change,
  };
}
const somebody = (id: string, change: Partial<PlanPerson> = {}): PlanPerson => ({
  id,
  name: id,
  roles: ["technician"],
  from: at(-30),
  until: at(480),
  walkingOrder: 1,
  ...change,
});
const keys = (tasks: readonly PlanTask[], people: readonly PlanPerson[], now = MORNING) =>
  planWork(tasks, people, now).tasks.map(({ key }) => key);

/** Every way to share jobs out and to order them: another method than the product's, for mornings small enough. */
function leastCost(tasks: readonly PlanTask[], people: readonly PlanPerson[]): number {
  const board = boardOf(tasks, people, MORNING, USUAL_WEIGHTS);
  const routes: number[][] = people.map(() => []);
  let least = Number.POSITIVE_INFINITY;
  const place = (job: number): void => {
    if (job === tasks.length) {
      least = Math.min(least, planCost(board, routes));
      return;
    }
    for (const [worker, route] of routes.entries()) {
      if (!tasks[job]?.mayDo.some((role) => people[worker]?.roles.includes(role))) continue;
      for (let spot = 0; spot <= route.length; spot += 1) {
        route.splice(spot, 0, job);
        place(job + 1);
        route.splice(spot, 1);
      }
    }
  };
  place(0);
  return least;
}

describe("the order of the work", () => {
  it("takes the earlier first case first, and the long set-up before a short one that is due alike", () => {
    expect(keys([task("late", { readyBy: at(90) }), task("early", { readyBy: at(11) })], [somebody("a")])).toEqual([
      "early",
      "late",
    ]);
    const alike = { readyBy: at(5) };
    const long = task("long", { ...alike, setUpMinutes: 60 });
    expect(keys([task("short", alike), long], [somebody("a")])).toEqual(["long", "short"]);
  });

  it("walks along the rooms when nothing else decides", () => {
    const tasks = [3, 1, 4, 2].map((walkingOrder) => task(`at ${walkingOrder}`, { walkingOrder, readyBy: at(400) }));
    expect(keys(tasks, [somebody("a", { walkingOrder: 1 })])).toEqual(["at 1", "at 2", "at 3", "at 4"]);
  });

  it("gives work to who may do it, and says who is missing", () => {
    const bench = task("bench", { mayDo: ["biomedical-engineer"] });
    const people = [somebody("tech"), somebody("engineer", { roles: ["biomedical-engineer"] })];
    expect(planWork([bench, task("swap")], people, MORNING).tasks.map(({ key, personId }) => [key, personId])).toEqual(
      expect.arrayContaining([
        ["bench", "engineer"],
        ["swap", "tech"],
      ]),
    );
    expect(planWork([bench], [somebody("tech")], MORNING)).toMatchObject({
      tasks: [],
      unplanned: [{ key: "bench", why: "Nobody on duty may do it (biomedical engineer)." }],
    });
    expect(planWork([bench], [], MORNING).unplanned).toHaveLength(1);
  });

  it("never moves what is begun: it stays with who has it, in front, as it was taken", () => {
    const second = task("begun second", { begun: { personId: "a", at: at(-5) }, readyBy: at(300), severity: "due" });
    const first = task("begun first", { begun: { personId: "a", at: at(-15) }, readyBy: at(300), severity: "due" });
    const urgent = task("urgent", { readyBy: at(1), severity: "stops" });
    const { tasks } = planWork([urgent, second, first], [somebody("a")], MORNING);
    expect(tasks.map(({ key }) => key)).toEqual(["begun first", "begun second", "urgent"]);
    expect(tasks[0]?.why).toBe("Begun; it is not moved.");
    // Even somebody whose duty has ended keeps what they are at.
    const gone = planWork([first, urgent], [somebody("a", { until: at(-1) }), somebody("b")], MORNING);
    expect(gone.tasks.map(({ key, personId }) => [key, personId])).toEqual([
      ["begun first", "a"],
      ["urgent", "b"],
    ]);
  });

  it("promises nothing past the end of a duty", () => {
    const plan = planWork(
      [task("long", { minutes: 50, readyBy: at(200) })],
      [somebody("a", { until: at(30) })],
      MORNING,
    );
    expect(plan.tasks).toEqual([]);
    expect(plan.unplanned).toEqual([{ key: "long", why: "Who may do it goes off duty before it could be done." }]);
  });

  it("takes two entries of one person that overlap for one person", () => {
    const twice = [
      somebody("a", { until: at(20) }),
      somebody("a", { from: at(10), until: at(480), roles: ["biomedical-engineer"] }),
    ];
    const { tasks, unplanned } = planWork(
      [task("one"), task("two"), task("three", { mayDo: ["biomedical-engineer"] })],
      twice,
      MORNING,
    );
    expect(unplanned).toEqual([]);
    expect(tasks.map(({ start }) => start)).toEqual([at(0), at(10), at(20)]);
  });

  it("says how long a start may wait, by everything that comes after it", () => {
    const tasks = [task("first", { readyBy: at(30) }), task("second", { readyBy: at(25) })];
    const plan = planWork(tasks, [somebody("a")], MORNING);
    // 10 minutes each: one ends at 10, the other at 20; together they can wait as long as the tighter of the two.
    const waits = plan.tasks.map(({ canWaitMinutes }) => canWaitMinutes ?? -1);
    expect(Math.min(...waits)).toBe(waits[0]);
    expect(plan.tasks[0]?.ifItWaits).toBe(`It may wait ${waits[0]} min; after that a first case is late.`);
    expect(planWork([task("late", { readyBy: at(4) })], [somebody("a")], MORNING).tasks).toMatchObject([
      { lateMinutes: 6, canWaitMinutes: 0, why: "room of late starts 6 min late with this plan." },
    ]);
    expect(planWork([task("idle", { readyBy: null })], [somebody("a")], MORNING).tasks).toMatchObject([
      {
        canWaitMinutes: null,
        why: "No first case waits for it.",
        ifItWaits: "It may wait; no first case is late by it.",
      },
    ]);
  });

  it("puts what is not in stock last, and a first case that is past already first of its kind", () => {
    const tasks = [
      task("no part", { lacksParts: true, readyBy: null }),
      task("past", { readyBy: at(-20) }),
      task("later"),
    ];
    expect(keys(tasks, [somebody("a")])).toEqual(["past", "later", "no part"]);
  });

  it("is right on the day when clocks change, because it counts in instants", () => {
    const zone = "America/Chicago";
    const now = instantAt(zone, localDate("2026-03-08"), localTime("01:50"));
    const readyBy = instantAt(zone, localDate("2026-03-08"), localTime("03:05"));
    const [planned] = planWork(
      [task("night", { readyBy })],
      [somebody("a", { from: now, until: later(now, 300 * MINUTE) })],
      now,
    ).tasks;
    expect(planned?.canWaitMinutes).toBe(5);
    expect(planned?.end).toBe(instantOf("2026-03-08T08:00:00Z"));
  });

  it("is the same whatever the order of what it is given", () => {
    const { tasks, people, now } = randomMorning(5, { tasks: 14, people: 3, rooms: 8 });
    const plan = planWork(tasks, people, now);
    for (const seed of [1, 2, 3]) {
      const { shuffled } = dice(seed);
      expect(planWork(shuffled(tasks), shuffled(people), now)).toEqual(plan);
    }
  });

  it("comes within a twentieth of the best that trying everything finds, on average, and plans everything once", () => {
    const gaps = Array.from({ length: 25 }, (_, place) => {
      const { tasks, people, now } = randomMorning(place + 500, { tasks: 5, people: 2, rooms: 4 });
      const plan = planWork(tasks, people, now);
      expect(new Set(plan.tasks.map(({ key }) => key)).size + plan.unplanned.length).toBe(tasks.length);
      const least = leastCost(tasks, people);
      expect(plan.cost).toBeGreaterThanOrEqual(least - 1e-6);
      return plan.cost / least - 1;
    });
    expect(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length).toBeLessThan(0.05);
  });
});
