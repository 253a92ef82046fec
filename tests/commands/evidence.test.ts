import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { answerRest, beginCheck, checkSeen, checkWhole, given, question, roomNamed } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
});
afterAll(() => department.close());

/** Minutes of the department's clock. */
const DAY = 24 * 60;
const WORKS = { kind: "pass", passed: true } as const;
const FAILS = { kind: "pass", passed: false } as const;

describe("what an answer counts for", () => {
  it("a failing answer stops the room at once; every passing one waits for the signature", async () => {
    const check = await beginCheck(department, "OR 2", technician);
    const bag = question(check, "self-inflating-bag");
    await department.must(recordAnswers, { checkId: check.id, answers: [given(bag, FAILS)] }, technician);
    expect(await roomNamed(department, "OR 2")).toMatchObject({
      state: "do-not-use",
      headlineRule: "self-inflating-bag",
    });
    const { version } = await answerRest(department, check.id, technician);
    department.clock.add(1);
    await department.must(signCheck, { checkId: check.id, seenVersion: version }, technician);
    expect(await roomNamed(department, "OR 2")).toMatchObject({
      state: "do-not-use",
      marks: { equipment: { name: "Rosa Osei" } },
    });
    department.clock.add(5);
    const again = await beginCheck(department, "OR 2", technician);
    await answerRest(department, again.id, technician);
    expect((await roomNamed(department, "OR 2")).state).toBe("do-not-use");
    department.clock.add(1);
    await department.must(
      signCheck,
      { checkId: again.id, seenVersion: (await checkSeen(department, again.id, technician)).version },
      technician,
    );
    expect(await roomNamed(department, "OR 2")).toMatchObject({ state: "ready", marks: { provider: null } });
  });

  it("a slip is taken back by who made it, and by nobody else; every answer is kept", async () => {
    const check = await beginCheck(department, "OR 2", technician);
    const bag = question(check, "self-inflating-bag");
    const record = async (answer: typeof WORKS | typeof FAILS, actor: Actor) => {
      department.clock.add(1);
      await department.must(recordAnswers, { checkId: check.id, answers: [given(bag, answer)] }, actor);
      return (await roomNamed(department, "OR 2")).state;
    };
    expect(await record(FAILS, technician)).toBe("do-not-use");
    expect(await record(WORKS, provider)).toBe("do-not-use");
    expect(await record(WORKS, technician)).not.toBe("do-not-use");
    const kept = await department.database.inScope(scopeOf(technician), (tx) =>
      tx.observation.findMany({ where: { checkId: check.id }, orderBy: { recordedAt: "asc" } }),
    );
    expect(kept.map(({ verdict, supersedes }) => [verdict, supersedes])).toEqual([
      ["fail", null],
      ["pass", null],
      ["pass", kept[0]?.id],
    ]);
  });

  it("what stood before a slip that was taken back stands again, however long ago it was", async () => {
    const failing = await beginCheck(department, "OR 3", technician);
    const key = question(failing, "cylinder-key");
    await department.must(recordAnswers, { checkId: failing.id, answers: [given(key, FAILS)] }, technician);
    department.clock.add(4 * DAY);
    const slip = await beginCheck(department, "OR 3", provider);
    for (const answer of [FAILS, WORKS]) {
      department.clock.add(1);
      await department.must(recordAnswers, { checkId: slip.id, answers: [given(key, answer)] }, provider);
    }
    const standing = { state: "do-not-use", headlineRule: "separate-oxygen" };
    expect(await roomNamed(department, "OR 3")).toMatchObject(standing);
    department.clock.add(4 * DAY);
    expect(await roomNamed(department, "OR 3")).toMatchObject(standing);
    await checkWhole(department, "OR 3", technician);
    expect((await roomNamed(department, "OR 3")).state).toBe("ready");
  });

  it("a slip that was taken back does not come back when it grows old", async () => {
    const check = await beginCheck(department, "OR 2", technician);
    const bag = question(check, "self-inflating-bag");
    for (const answer of [FAILS, WORKS]) {
      department.clock.add(1);
      await department.must(recordAnswers, { checkId: check.id, answers: [given(bag, answer)] }, technician);
    }
    expect((await roomNamed(department, "OR 2")).state).toBe("to-check");
    department.clock.add(3 * DAY);
    expect((await roomNamed(department, "OR 2")).state).toBe("to-check");
  });

  it("a whole check that passes but is not signed leaves the room to check", async () => {
    const check = await beginCheck(department, "OR 3", technician);
    await answerRest(department, check.id, technician);
    expect(await roomNamed(department, "OR 3")).toMatchObject({
      state: "to-check",
      headline: "Check begun, not signed yet",
    });
  });

  it("an unsigned passing answer does not hide a failing one of another person", async () => {
    const check = await beginCheck(department, "OR 3", provider);
    const suction = question(check, "suction");
    const weak = { kind: "number", reading: { value: 40, unit: "mmHg" } } as const;
    await department.must(recordAnswers, { checkId: check.id, answers: [given(suction, weak)] }, provider);
    expect(await roomNamed(department, "OR 3")).toMatchObject({ state: "do-not-use", headlineRule: "suction" });
    const theirs = await beginCheck(department, "OR 3", technician);
    const strong = { kind: "number", reading: { value: 400, unit: "mmHg" } } as const;
    department.clock.add(1);
    await department.must(recordAnswers, { checkId: theirs.id, answers: [given(suction, strong)] }, technician);
    expect(await roomNamed(department, "OR 3")).toMatchObject({ state: "do-not-use", headlineRule: "suction" });
    const { version } = await checkSeen(department, theirs.id, technician);
    department.clock.add(1);
    await department.must(signCheck, { checkId: theirs.id, seenVersion: version }, technician);
    expect((await roomNamed(department, "OR 3")).state).toBe("ready");
  });

  it("a reading of a shut valve proves nothing: it is owed again, not passed", async () => {
    const check = await checkWhole(department, "OR 1", technician, (item) => {
      const pressure = { value: 1_900, unit: "psi" } as const;
      if (item.item === "cylinder-gauge")
        return { kind: "gauge", reading: pressure, openWhenRead: false, shutAgain: true };
      return goodAnswer(item);
    });
    expect(check.signatures.map(({ meaning }) => meaning)).toEqual(["performed"]);
    expect((await roomNamed(department, "OR 1")).state).toBe("to-check");
  });

  it("somebody's own open check goes on; a second person gets one of their own", async () => {
    const workstationId = (await roomNamed(department, "OR 1")).workstation?.id ?? "";
    const start = (actor: Actor) => department.must(startCheck, { workstationId, kind: "daily" }, actor);
    const first = await start(technician);
    expect(first.resumed).toBe(false);
    expect(await start(technician)).toEqual({ checkId: first.checkId, resumed: true });
    const second = await start(provider);
    expect(second).toMatchObject({ resumed: false });
    expect(second.checkId).not.toBe(first.checkId);
  });
});
