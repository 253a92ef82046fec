import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { enterPaperCheck } from "@/lib/commands/enter-paper-check";
import { signCheck } from "@/lib/commands/sign-check";
import { decidePaperTime } from "@/lib/domain/paper";
import { readDowntime, readPaperEntries, readPaperSheet } from "@/lib/queries/downtime";
import { readHistory } from "@/lib/queries/history";
import { instantOf, localDate, localTime } from "@/lib/units/time";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { paperTime } from "@/tests/support/paper-time";
import { expectRefused } from "@/tests/support/refusals";
import { checkSeen, given, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let rosa: Actor;
let clerk: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  rosa = await department.person("Rosa Osei", ["technician"]);
  clerk = await department.person("Maya Quill", ["manager"]);
  // The department was fitted out at its first moment: a check before that would be of equipment that was not there yet.
  department.clock.add(60);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

/** To the minute, as a sheet says it. */
const minutesAgo = (minutes: number) =>
  new Date(Math.floor(department.clock.now() / 60_000 - minutes) * 60_000).toISOString();

async function paperOf(room: string, doneBy: Actor, from = 40, to = 20) {
  const workstationId = await workstationIn(department, room);
  const sheet = await readPaperSheet(clerk, workstationId, readingOf(department));
  const answers = (sheet?.items ?? []).map((item) => given(item, goodAnswer(item)));
  return {
    workstationId,
    kind: "daily" as const,
    doneBy: doneBy.personId,
    ...paperTime(department, from, to),
    answers,
  };
}

describe("a check that was done on paper", () => {
  it("carries who did it and when, beside who entered it and when; its doer signs it, and the room is ready", async () => {
    const input = await paperOf("OR 1", rosa);
    const { checkId, failing, yours } = await department.must(enterPaperCheck, input, clerk);
    expect({ failing, yours }).toEqual({ failing: 0, yours: false });
    expect((await roomNamed(department, "OR 1")).state).toBe("to-check");

    const { entries } = await readPaperEntries(clerk, readingOf(department));
    expect(entries).toMatchObject([
      {
        checkId,
        room: "OR 1",
        doneBy: "Rosa Osei",
        earliest: minutesAgo(40),
        latest: minutesAgo(20),
        enteredBy: "Maya Quill",
        enteredAt: new Date(department.clock.now()).toISOString(),
        answers: input.answers.length,
        failing: 0,
        signedBy: null,
      },
    ]);
    const stored = await department.database.inScope(scopeOf(clerk), (tx) =>
      tx.observation.findMany({ where: { checkId } }),
    );
    expect(new Set(stored.map(({ observedBy, recordedBy }) => `${observedBy} ${recordedBy}`))).toEqual(
      new Set([`${rosa.personId} ${clerk.personId}`]),
    );
    expect(stored[0]?.known).toEqual({ source: "paper", earliest: minutesAgo(40), latest: minutesAgo(20) });

    const seen = await checkSeen(department, checkId, rosa);
    expect(seen.startedBy).toBe("Rosa Osei");
    await department.must(signCheck, { checkId, seenVersion: seen.version }, rosa);
    expect((await roomNamed(department, "OR 1")).state).toBe("ready");
    expect((await readPaperEntries(clerk, readingOf(department))).entries[0]?.signedBy).toBe("Rosa Osei");
    const history = await readHistory(clerk, { limit: 50 }, readingOf(department));
    expect(history.entries.map(({ text }) => text)).toContain(
      "Entered from paper the check of OR 1 that Rosa Osei did",
    );
    await expectFresh(department);
  });

  it("says so when who enters it did it, and a failing answer stops the room at once", async () => {
    const input = await paperOf("OR 2", rosa);
    const bag = input.answers.find(({ item }) => item === "self-inflating-bag");
    const answers = input.answers.map((one) =>
      one === bag ? { ...one, answer: { kind: "pass" as const, passed: false } } : one,
    );
    expect(await department.must(enterPaperCheck, { ...input, answers }, rosa)).toMatchObject({
      failing: 1,
      yours: true,
    });
    expect((await roomNamed(department, "OR 2")).state).toBe("do-not-use");
    await expectFresh(department);
  });

  it.each([
    ["begins in the future", "from", /has not come yet/, () => paperTime(department, -5, -10)],
    ["ends in the future", "to", /has not come yet/, () => paperTime(department, 10, -5)],
    ["took most of a day", "to", /more than 12 hours/, () => paperTime(department, 20 * 60, 5 * 60)],
    ["is old", "on", /31 days ago/, () => paperTime(department, 33 * 24 * 60, 33 * 24 * 60)],
    ["was done by nobody here", "doneBy", /choose who did it/, () => ({ doneBy: crypto.randomUUID() })],
    ["was done by who may not check", "doneBy", /choose who did it/, () => ({ doneBy: clerk.personId })],
    ["is of no workstation", "workstationId", /no workstation/, () => ({ workstationId: crypto.randomUUID() })],
  ])("is refused by its field, with nothing kept, when it %s", async (_name, field, message, change) => {
    const input = { ...(await paperOf("OR 3", rosa)), ...change() };
    const refusal = field === "workstationId" ? "not-found" : "invalid";
    await expectRefused(department, enterPaperCheck, input, clerk, { refusal, field, message });
  });
});

describe("the time on a sheet", () => {
  const US = "America/Chicago";
  const at = (text: string) => instantOf(text);
  const sheet = (on: string, from: string, to: string) => ({
    on: localDate(on),
    from: localTime(from),
    to: localTime(to),
  });
  it("over midnight ends on the next day, and is the facility's own time", () => {
    expect(decidePaperTime(sheet("2026-03-02", "23:40", "00:10"), US, at("2026-03-03T12:00:00Z"))).toEqual({
      ok: true,
      value: { earliest: at("2026-03-03T05:40:00Z"), latest: at("2026-03-03T06:10:00Z") },
    });
  });
  it("is right on the night when clocks go forward", () => {
    expect(decidePaperTime(sheet("2026-03-08", "01:30", "03:30"), US, at("2026-03-08T12:00:00Z"))).toEqual({
      ok: true,
      value: { earliest: at("2026-03-08T07:30:00Z"), latest: at("2026-03-08T08:30:00Z") },
    });
  });
});

describe("the morning on paper", () => {
  it("holds every room in walking order, and a sheet for each workstation with its items, limits and unit", async () => {
    const { rooms, sheets, facility } = await readDowntime(clerk, readingOf(department));
    expect(facility).not.toBe("");
    expect(rooms.map(({ name }) => name)).toEqual(expect.arrayContaining(["OR 1", "OR 2", "OR 3"]));
    expect(sheets.map(({ room }) => room)).toEqual(
      rooms.filter(({ workstation }) => workstation).map(({ name }) => name),
    );
    const gauge = sheets[0]?.items.find(({ title }) => /oxygen.*open, read, shut/i.test(title));
    expect(gauge).toMatchObject({ answer: "reading", unit: "psi" });
    expect(gauge?.limit).toMatch(/1,?000/);
  });
});
