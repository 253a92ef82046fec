import { describe, expect, it } from "vitest";
import { dice } from "@/lib/domain/dice";
import { escalate, nextPerson, whyNow } from "@/lib/domain/escalation/decide";
import type { AskedPerson, Reachable, WatchedTask } from "@/lib/domain/escalation/model";
import { instant, later, MINUTE } from "@/lib/units/time";

const NOW = instant(Date.parse("2026-03-04T12:30:00Z"));
const LIMITS = { beforeDecideByMinutes: 15, afterCouldNotMinutes: 5, answerWithinMinutes: 5 };
const inMinutes = (count: number) => later(NOW, count * MINUTE);

const task = (change: Partial<WatchedTask> = {}): WatchedTask => ({
  key: "check:1",
  title: "Daily check",
  place: "OR 1",
  severity: "owed",
  minutes: 12,
  mayDo: ["technician", "provider"],
  claimed: false,
  plannedInTime: false,
  readyBy: inMinutes(20),
  couldNot: null,
  faultLate: false,
  ...change,
});
const person = (id: string, change: Partial<Reachable> = {}): Reachable => ({
  id,
  name: id,
  roles: ["charge-provider"],
  onDuty: true,
  hasChannel: true,
  ...change,
});
const asked = (change: Partial<AskedPerson> = {}): AskedPerson => ({
  id: "e1",
  taskKey: "check:1",
  personId: "mateo",
  at: inMinutes(-6),
  answerBy: inMinutes(-1),
  answered: false,
  outcome: null,
  ...change,
});
const run = (
  tasks: readonly WatchedTask[],
  before: readonly AskedPerson[] = [],
  people = [person("mateo"), person("howard", { roles: ["manager"] })],
) => escalate(tasks, before, people, NOW, LIMITS);

describe("when work is put to somebody", () => {
  it.each([
    [
      "fifteen minutes before it would be too late to begin",
      { readyBy: inMinutes(27) },
      "Nobody has it, and in 15 min the first case is late",
    ],
    ["too late already", { readyBy: inMinutes(5) }, "Nobody has it, and the first case is 7 min late by now"],
    [
      "somebody could not, and nobody took it up for five minutes",
      { readyBy: null, couldNot: { name: "Rosa", reason: "no cylinder", at: inMinutes(-5) } },
      "Rosa could not: no cylinder",
    ],
    [
      "a fault was not looked at in its time",
      { readyBy: null, severity: "note", faultLate: true },
      "Reported, and not looked at in its time",
    ],
  ] as const)("%s", (_name, change, why) => {
    expect(whyNow(task(change), NOW, LIMITS)).toBe(why);
    expect(run([task(change)]).asked).toEqual([
      { taskKey: "check:1", personId: "mateo", reason: `OR 1: Daily check. ${why}`, answerBy: inMinutes(5) },
    ]);
  });

  it.each([
    ["sixteen minutes before", { readyBy: inMinutes(28) }],
    ["while somebody has it", { claimed: true }],
    ["where somebody on duty comes to it in time", { plannedInTime: true }],
    ["where no case waits", { readyBy: null }],
    ["for what does not stop a room", { severity: "due" }],
    [
      "four minutes after somebody could not",
      { readyBy: null, couldNot: { name: "Rosa", reason: "no", at: inMinutes(-4) } },
    ],
  ] as const)("and not %s", (_name, change) => {
    expect(run([task(change)])).toEqual({ ended: [], asked: [] });
  });
});

describe("who is asked", () => {
  it("is one person, and the next when no answer comes in time; after the last nobody more", () => {
    const first = asked();
    const second = run([task()], [first]);
    expect(second.ended).toEqual([{ id: "e1", outcome: "unanswered" }]);
    expect(second.asked).toMatchObject([{ personId: "howard", reason: "OR 1: Daily check. No answer so far" }]);
    const done = asked({ outcome: "unanswered" });
    const last = asked({ id: "e2", personId: "howard" });
    expect(run([task()], [done, last])).toEqual({ ended: [{ id: "e2", outcome: "unanswered" }], asked: [] });
    expect(run([task()], [done, asked({ id: "e2", personId: "howard", outcome: "unanswered" })])).toEqual({
      ended: [],
      asked: [],
    });
  });

  it("is the next one also when they had to wait until they were free", () => {
    const others = Array.from({ length: 5 }, (_, place) =>
      asked({ id: `o${place}`, taskKey: `check:o${place}`, personId: "howard", answerBy: inMinutes(3) }),
    );
    const busy = others.map(({ taskKey }) => task({ key: taskKey }));
    const unanswered = run([task(), ...busy], [asked(), ...others]);
    expect(unanswered).toEqual({ ended: [{ id: "e1", outcome: "unanswered" }], asked: [] });
    const later = run([task()], [asked({ outcome: "unanswered" })]);
    expect(later.asked).toMatchObject([{ personId: "howard", reason: "OR 1: Daily check. No answer so far" }]);
  });

  it("is nobody else while there is time to answer, or after the answer", () => {
    expect(run([task()], [asked({ answerBy: inMinutes(1) })])).toEqual({ ended: [], asked: [] });
    expect(run([task()], [asked({ answered: true })])).toEqual({ ended: [], asked: [] });
  });

  it("is asked anew when the work was taken and given back", () => {
    const taken = asked({ outcome: "over", at: inMinutes(-20) });
    const before = asked({ id: "e0", outcome: "unanswered", personId: "howard", at: inMinutes(-30) });
    expect(run([task()], [taken, before]).asked).toMatchObject([{ personId: "mateo" }]);
  });

  it("is nobody any more when the work is taken, or gone", () => {
    expect(run([task({ claimed: true })], [asked({ answerBy: inMinutes(1) })]).ended).toEqual([
      { id: "e1", outcome: "over" },
    ]);
    expect(run([], [asked()]).ended).toEqual([{ id: "e1", outcome: "over" }]);
  });

  it("is on duty before not, nearest to the decision before further, reachable before not", () => {
    const people = [
      person("a", { roles: ["manager"] }),
      person("b", { onDuty: false }),
      person("c", { hasChannel: false }),
      person("d"),
      person("e", { roles: ["technician"] }),
    ];
    const order: string[] = [];
    for (
      let next = nextPerson(["technician"], people, new Set());
      next;
      next = nextPerson(["technician"], people, new Set(order))
    )
      order.push(next.id);
    expect(order).toEqual(["d", "c", "b", "a"]);
    const engineer = person("f", { roles: ["biomedical-engineer"], onDuty: false });
    expect(nextPerson(["biomedical-engineer"], [...people, engineer], new Set())?.id).toBe("f");
    expect(nextPerson(["technician"], [person("e", { roles: ["technician"] })], new Set())).toBeNull();
  });

  it("is asked about five things at once and no more, the most urgent first", () => {
    const many = Array.from({ length: 8 }, (_, place) =>
      task({ key: `check:${place}`, readyBy: inMinutes(20 - place) }),
    );
    const { asked: now } = run(many);
    expect(now.map(({ taskKey }) => taskKey)).toEqual(["check:7", "check:6", "check:5", "check:4", "check:3"]);
  });

  it("is the same whatever order people and tasks come in, and never two about one task", () => {
    const throws = dice(7);
    const people = ["mateo", "ines", "howard", "anneke"].map((id) => person(id));
    const tasks = Array.from({ length: 4 }, (_, place) => task({ key: `check:${place}` }));
    const first = run(tasks, [], people);
    for (let time = 0; time < 5; time += 1)
      expect(run(throws.shuffled(tasks), [], throws.shuffled(people))).toEqual(first);
    expect(new Set(first.asked.map(({ taskKey }) => taskKey)).size).toBe(first.asked.length);
  });
});
