import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { correctWorkstation, startSelfTest, takeOverCheck } from "@/lib/commands/check-hands";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { readHistory } from "@/lib/queries/history";
import { readOpenChecks } from "@/lib/queries/open-checks";
import { readRoom } from "@/lib/queries/room";
import { rebuildLatest } from "@/lib/storage/latest-observations";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { expectRefused } from "@/tests/support/refusals";
import {
  answerRest,
  beginCheck,
  checkSeen,
  checkWhole,
  given,
  question,
  readingOf,
  roomNamed,
  workstationIn,
} from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let rosa: Actor;
let omar: Actor;
let provider: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  rosa = await department.person("Rosa Osei", ["technician"]);
  omar = await department.person("Omar Quist", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const unknown = "00000000-0000-4000-8000-000000000000";
const WORKS = { kind: "pass", passed: true } as const;
const FAILS = { kind: "pass", passed: false } as const;
const openOf = (actor: Actor) => readOpenChecks(actor, readingOf(department));

describe("several checks are open at once", () => {
  it("each person sees their own and the others', with how far each is", async () => {
    const first = await beginCheck(department, "OR 1", rosa);
    department.clock.add(1);
    const second = await beginCheck(department, "OR 2", rosa);
    const answers = [given(question(first, "self-inflating-bag"), WORKS)];
    await department.must(recordAnswers, { checkId: first.id, answers }, rosa);
    const { mine, others } = await openOf(rosa);
    expect(mine.map(({ checkId, answered, room }) => [checkId, answered, room?.name])).toEqual([
      [first.id, 1, "OR 1"],
      [second.id, 0, "OR 2"],
    ]);
    expect(mine[0]).toMatchObject({ asked: first.items.length, heldBy: "Rosa Osei", takenOverFrom: null });
    expect(others).toEqual([]);
    expect((await openOf(omar)).others.map(({ checkId }) => checkId)).toEqual([first.id, second.id]);
  });
});

describe("a check that somebody else began is taken over", () => {
  it("each answer keeps its own name, and opening the workstation goes on with it", async () => {
    const check = await beginCheck(department, "OR 1", rosa);
    const reply = await department.must(takeOverCheck, { checkId: check.id, reason: "Rosa was called to OR 3." }, omar);
    expect(reply).toEqual({ checkId: check.id, from: "Rosa Osei" });
    expect((await openOf(omar)).mine).toMatchObject([
      { checkId: check.id, heldBy: "Omar Quist", takenOverFrom: "Rosa Osei" },
    ]);
    expect((await openOf(rosa)).mine.map(({ room }) => room?.name)).toEqual(["OR 2"]);
    const resumed = await department.must(startCheck, { workstationId: check.workstation.id, kind: "daily" }, omar);
    expect(resumed).toEqual({ checkId: check.id, resumed: true });
    const { recorded } = await answerRest(department, check.id, omar);
    expect(recorded.find(({ item }) => item === "self-inflating-bag")?.by).toBe("Rosa Osei");
    expect(recorded.find(({ item }) => item === "suction")?.by).toBe("Omar Quist");
    const { entries } = await readHistory(omar, { limit: 50 }, readingOf(department));
    expect(entries.find(({ command }) => command === "take-over-check")?.text).toBe(
      "Took over the check of OR 1 from Rosa Osei: Rosa was called to OR 3.",
    );
  });

  it("is refused for one's own, for one that is signed, and for one that is not there", async () => {
    const { mine } = await openOf(omar);
    const checkId = mine[0]?.checkId ?? "";
    await expectRefused(department, takeOverCheck, { checkId, reason: "x" }, omar, {
      refusal: "already-done",
      message: /This check is yours already/,
    });
    const { version } = await checkSeen(department, checkId, omar);
    await department.must(signCheck, { checkId, seenVersion: version }, omar);
    await expectRefused(department, takeOverCheck, { checkId, reason: "x" }, rosa, {
      refusal: "already-done",
      message: /signed by Omar Quist/,
    });
    await expectRefused(department, takeOverCheck, { checkId: unknown, reason: "x" }, rosa, {
      refusal: "not-found",
      message: /no such check/,
      field: "checkId",
    });
  });

  it("two people take it over at once: it is with the later one, and both are on record", async () => {
    const check = await beginCheck(department, "OR 2", rosa);
    const takers = [omar, provider];
    const outcomes = await Promise.all(
      takers.map((actor) => department.run(takeOverCheck, { checkId: check.id, reason: "It must go on." }, actor)),
    );
    expect(outcomes.every(({ ok }) => ok)).toBe(true);
    const held = [...(await openOf(omar)).mine, ...(await openOf(provider)).mine].filter(
      ({ checkId }) => checkId === check.id,
    );
    expect(held.length).toBe(1);
    expect([held[0]?.heldBy, held[0]?.takenOverFrom].sort()).toEqual(["Karl Brandt", "Omar Quist"]);
  });
});

describe("a check of the wrong workstation is corrected", () => {
  it("what was answered stands on the right one, with its times and names, and no longer on the wrong one", async () => {
    const check = await beginCheck(department, "OR 3", rosa);
    const bag = given(question(check, "self-inflating-bag"), FAILS);
    const gauge = given(question(check, "cylinder-gauge", "Oxygen"), {
      kind: "gauge",
      reading: { value: 1_700, unit: "psi" },
      openWhenRead: true,
      shutAgain: true,
    });
    await department.must(recordAnswers, { checkId: check.id, answers: [bag, gauge] }, rosa);
    expect((await roomNamed(department, "OR 3")).state).toBe("do-not-use");
    const observedAt = (await checkSeen(department, check.id, rosa)).recorded[0]?.at;
    department.clock.add(5);
    const right = await workstationIn(department, "OR 2");
    const reply = await department.must(
      correctWorkstation,
      { checkId: check.id, workstationId: right, reason: "I stood in OR 2." },
      omar,
    );
    expect(reply).toMatchObject({ carried: 2, dropped: [] });
    expect((await roomNamed(department, "OR 3")).state).toBe("to-check");
    expect((await roomNamed(department, "OR 2")).state).toBe("do-not-use");
    const moved = await checkSeen(department, reply.checkId, omar);
    expect(
      moved.recorded
        .map(({ item, by, at }) => [item, by, at])
        .sort()
        .reverse(),
    ).toEqual([
      ["self-inflating-bag", "Rosa Osei", observedAt],
      ["cylinder-gauge", "Rosa Osei", observedAt],
    ]);
    expect((await checkSeen(department, check.id, rosa)).recorded.length).toBe(2);
    await expectFresh(department);
    for (const [command, input] of [
      [recordAnswers, { checkId: check.id, answers: [bag] }],
      [signCheck, { checkId: check.id, seenVersion: 2 }],
      [confirmCheck, { checkId: check.id, seenVersion: 2 }],
    ] as const)
      await expectRefused(
        department,
        command as typeof signCheck,
        input as never,
        command === (confirmCheck as never) ? provider : rosa,
        {
          refusal: "moved-on",
          message: /of another workstation/,
        },
      );
  });

  it("a signed one is moved, too: the wrong room loses its mark, and what stood there before stands again", async () => {
    await checkWhole(department, "OR 3", omar);
    department.clock.add(10);
    const wrong = await checkWhole(department, "OR 3", rosa, (item) =>
      item.item === "suction" ? { kind: "number", reading: { value: 10, unit: "mmHg" } } : goodAnswer(item),
    );
    expect((await roomNamed(department, "OR 3")).state).toBe("do-not-use");
    department.clock.add(1);
    const reply = await department.must(
      correctWorkstation,
      { checkId: wrong.id, workstationId: await workstationIn(department, "OR 1"), reason: "It was OR 1." },
      rosa,
    );
    const view = await readRoom(rosa, (await roomNamed(department, "OR 3")).roomId, readingOf(department));
    expect(view?.judgement).toMatchObject({ state: "ready", marks: { equipment: { by: omar.personId } } });
    // A model with other yokes: what has no counterpart is told and left to be answered.
    expect(reply.carried + reply.dropped.length).toBe(wrong.recorded.length);
    expect((await roomNamed(department, "OR 1")).state).toBe("do-not-use");
    await expectFresh(department);
    const scope = scopeOf(rosa);
    const before = await department.database.inScope(scope, (tx) =>
      tx.latestObservation.findMany({ orderBy: { observationId: "asc" } }),
    );
    await department.database.inScope(scope, (tx) => rebuildLatest(tx, scope.facilityId));
    const after = await department.database.inScope(scope, (tx) =>
      tx.latestObservation.findMany({ orderBy: { observationId: "asc" } }),
    );
    expect(after).toEqual(before);
  });

  it("is refused for the same workstation, for one that is not there, and a second time", async () => {
    const check = await beginCheck(department, "OR 2", provider);
    const reason = "The numbers were mixed up.";
    await expectRefused(
      department,
      correctWorkstation,
      { checkId: check.id, workstationId: check.workstation.id, reason },
      rosa,
      {
        refusal: "invalid",
        message: /This check is of AW-03 already/,
        field: "workstationId",
      },
    );
    await expectRefused(department, correctWorkstation, { checkId: check.id, workstationId: unknown, reason }, rosa, {
      refusal: "not-found",
      message: /no workstation/,
      field: "workstationId",
    });
    const right = await workstationIn(department, "OR 3");
    await department.must(
      recordAnswers,
      { checkId: check.id, answers: [given(question(check, "suction"), goodAnswer(question(check, "suction")))] },
      provider,
    );
    const input = { checkId: check.id, workstationId: right, reason };
    const outcomes = await Promise.all([rosa, omar].map((actor) => department.run(correctWorkstation, input, actor)));
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({
      refusal: "moved-on",
      message: expect.stringContaining("of another workstation"),
    });
    await expectFresh(department);
  });
});

describe("the self-test of a workstation runs", () => {
  it("since when is shown until its result is recorded; a model without one has none", async () => {
    const workstation = await department.database.inScope(scopeOf(rosa), (tx) =>
      tx.workstation.findFirst({ where: { tag: "AW-02" } }),
    );
    const { checkId } = await department.must(
      startCheck,
      { workstationId: workstation?.id ?? "", kind: "daily" },
      rosa,
    );
    const { since } = await department.must(startSelfTest, { checkId }, rosa);
    const shown = async () => (await openOf(rosa)).mine.find((one) => one.checkId === checkId)?.selfTestSince;
    expect(await shown()).toBe(since);
    await expectRefused(department, startSelfTest, { checkId }, omar, {
      refusal: "already-done",
      message: /running already/,
    });
    department.clock.add(6);
    const check = await checkSeen(department, checkId, rosa);
    const result = question(check, "self-test");
    await department.must(recordAnswers, { checkId, answers: [given(result, goodAnswer(result))] }, rosa);
    expect(await shown()).toBeNull();
    const other = await beginCheck(department, "OR 1", omar);
    await expectRefused(department, startSelfTest, { checkId: other.id }, omar, {
      refusal: "does-not-fit",
      message: /This model has no self-test/,
    });
  });
});
