import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { readCheckStart } from "@/lib/queries/check";
import { readHistory } from "@/lib/queries/history";
import type { CheckItemView, CheckView } from "@/lib/schemas/check";
import { recordAnswersRequest } from "@/lib/schemas/check";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { expectRefused } from "@/tests/support/refusals";
import { beginCheck, checkSeen, given, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let rosa: Actor;
let mika: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  rosa = await department.person("Rosa Osei", ["technician"]);
  mika = await department.person("Mika Lind", ["technician"]);
  department.clock.add(60);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const HOURS_OFF = 7_200;
/** What a device whose clock is two hours ahead would call a moment so many minutes ago. */
const onDevice = (minutesAgo: number) =>
  new Date(department.clock.now() - minutesAgo * 60_000 + HOURS_OFF * 1000).toISOString();
const onServer = (minutesAgo: number) => new Date(department.clock.now() - minutesAgo * 60_000).toISOString();

interface Begun {
  readonly checkId: string;
  readonly start: CheckView;
  readonly began: {
    workstationId: string;
    roomId: string | null;
    procedureId: string | null;
    kind: "daily";
    at: string;
  };
}

async function begunOffline(room: string, minutesAgo = 40): Promise<Begun> {
  const workstationId = await workstationIn(department, room);
  const start = await readCheckStart(rosa, workstationId, readingOf(department));
  if (!start) throw new Error(`nothing is asked of ${room}`);
  const procedureId = start.procedure?.id ?? null;
  const began = {
    workstationId,
    roomId: start.room?.id ?? null,
    procedureId,
    kind: "daily",
    at: onDevice(minutesAgo),
  } as const;
  return { checkId: randomUUID(), start, began };
}

const keptBy = (person: Actor, began: Begun["began"] | null, contactMinutesAgo = 45) => ({
  shape: 2 as const,
  personId: person.personId,
  clock: { offsetSeconds: -HOURS_OFF, contactAt: onDevice(contactMinutesAgo) },
  began,
});
const at = (item: CheckItemView, minutesAgo: number, answer = goodAnswer(item)) => ({
  ...given(item, answer),
  givenAt: onDevice(minutesAgo),
});
const PASS = { kind: "pass", passed: true } as const;
const FAIL = { kind: "pass", passed: false } as const;
const firstOf = ({ items }: CheckView): CheckItemView => {
  const [first] = items;
  if (first?.form.kind !== "pass") throw new Error("the procedure begins with a question of yes or no");
  return first;
};
const rows = (checkId: string) =>
  department.database.inScope(scopeOf(rosa), (tx) =>
    tx.observation.findMany({ where: { checkId }, orderBy: { observedAt: "asc" } }),
  );

describe("a check begun without a connection", () => {
  it("is recorded with the device's time, corrected and kept, without a mark; its signature makes the room ready", async () => {
    const { checkId, start, began } = await begunOffline("OR 1");
    const kept = keptBy(rosa, began);
    const answers = start.items.map((item) => at(item, 30));
    await department.must(recordAnswers, { checkId, answers, kept }, rosa);
    const check = await checkSeen(department, checkId, rosa);
    expect({ startedAt: check.startedAt, by: check.startedBy, signed: check.signatures }).toEqual({
      startedAt: onServer(40),
      by: "Rosa Osei",
      signed: [],
    });
    const [row] = await rows(checkId);
    expect(row?.observedAt.toISOString()).toBe(onServer(30));
    expect(row?.known).toEqual({ source: "device", offsetSeconds: -HOURS_OFF });
    expect((await roomNamed(department, "OR 1")).state).toBe("to-check");
    await department.must(signCheck, { checkId, seenVersion: check.version }, rosa);
    expect((await roomNamed(department, "OR 1")).marks.equipment?.name).toBe("Rosa Osei");
    await expectFresh(department);
  });

  it("takes what comes out of order, in halves and twice: each answer once, and the later one stands", async () => {
    const { checkId, start, began } = await begunOffline("OR 2");
    const first = firstOf(start);
    const second = start.items.find(({ key, form }) => form.kind === "pass" && key !== first.key);
    if (!second) throw new Error("only one question of yes or no is asked");
    const kept = keptBy(rosa, began);
    const later = { checkId, answers: [at(first, 20, PASS)], kept };
    const earlier = { checkId, answers: [at(first, 30, FAIL), at(second, 29, PASS)], kept };
    const [laterKey, earlierKey] = [randomUUID(), randomUUID()];
    await department.run(recordAnswers, later, rosa, laterKey);
    await department.run(recordAnswers, earlier, rosa, earlierKey);
    department.clock.add(5);
    const again = await department.run(recordAnswers, earlier, rosa, earlierKey);
    expect(again).toMatchObject({ ok: true, value: { replayed: true } });
    expect(await rows(checkId)).toHaveLength(3);
    const check = await checkSeen(department, checkId, rosa);
    expect(check.recorded.find(({ key }) => key === first.key)?.answer).toEqual(PASS);
    const changed = await department.run(
      recordAnswers,
      { ...earlier, answers: [at(first, 30, PASS)] },
      rosa,
      earlierKey,
    );
    expect(changed).toMatchObject({ ok: false, refusal: "key-reused" });
    await expectFresh(department);
  });

  it("knows only a span when the clock was turned back meanwhile", async () => {
    const { checkId, start, began } = await begunOffline("OR 2");
    const answers = [at(firstOf(start), 300, PASS)];
    await department.must(recordAnswers, { checkId, answers, kept: keptBy(rosa, began) }, rosa);
    const [row] = await rows(checkId);
    expect(row?.known).toMatchObject({ source: "device", earliest: onServer(45), latest: onServer(0) });
    await expectFresh(department);
  });

  it("keeps as evidence what is not asked any more, and says what that does not settle", async () => {
    const { checkId, start, began } = await begunOffline("OR 2");
    const first = firstOf(start);
    const gauge = start.items.find(({ form }) => form.kind === "gauge");
    if (!gauge) throw new Error("no gauge is asked");
    const gone = { ...at(gauge, 30), subject: { ...gauge.subject, id: randomUUID() } };
    const reply = await department.must(
      recordAnswers,
      { checkId, answers: [at(first, 30, PASS), gone], kept: keptBy(rosa, began) },
      rosa,
    );
    expect(reply.recorded.map(({ verdict }) => verdict)).toEqual(["pass", "noted"]);
    expect(reply.unsettled).toEqual([
      { key: reply.recorded[1]?.key, why: expect.stringContaining("not asked here any more") },
    ]);
    expect(await rows(checkId)).toHaveLength(2);
    await expectFresh(department);
  });
});

describe("two people on one phone", () => {
  it("what one sends of the other's is the other's evidence, sent by name, and no mark", async () => {
    const { checkId, start, began } = await begunOffline("OR 2");
    const answers = [at(firstOf(start), 30, PASS)];
    await department.must(recordAnswers, { checkId, answers, kept: keptBy(rosa, began) }, mika);
    const [row] = await rows(checkId);
    expect([row?.observedBy, row?.recordedBy]).toEqual([rosa.personId, mika.personId]);
    const check = await checkSeen(department, checkId, mika);
    expect([check.startedBy, check.signatures]).toEqual(["Rosa Osei", []]);
    const { entries } = await readHistory(mika, { limit: 1 }, readingOf(department));
    expect(entries[0]?.text).toContain("that Rosa Osei gave");
  });

  it("is refused for somebody who does not exist or may do no check", async () => {
    const { checkId, start, began } = await begunOffline("OR 2");
    const answers = [at(firstOf(start), 30, PASS)];
    const nobody = { ...keptBy(rosa, began), personId: randomUUID() };
    await expectRefused(department, recordAnswers, { checkId, answers, kept: nobody }, mika, {
      refusal: "invalid",
      message: /no giver/,
      field: "kept.personId",
    });
  });
});

describe("two people on one workstation at once", () => {
  it("their items merge, the later answer wins, and both stay", async () => {
    const check = await beginCheck(department, "OR 2", rosa);
    const first = firstOf(check);
    department.clock.add(60);
    const late = { checkId: check.id, answers: [at(first, 20, FAIL)], kept: keptBy(mika, null) };
    await department.must(recordAnswers, { checkId: check.id, answers: [given(first, PASS)] }, rosa);
    await department.must(recordAnswers, late, mika);
    const seen = await checkSeen(department, check.id, rosa);
    expect(seen.recorded.find(({ key }) => key === first.key)).toMatchObject({ answer: PASS, by: "Rosa Osei" });
    expect((await rows(check.id)).slice(-2).map(({ observedBy }) => observedBy)).toEqual([
      mika.personId,
      rosa.personId,
    ]);
  });
});

describe("what a device sends", () => {
  it("is taken in the shape before, and another shape is refused with what to do", () => {
    const answers = [{ item: "suction", subject: { kind: "room", id: "x" }, answer: PASS }];
    const checkId = randomUUID();
    expect(recordAnswersRequest.safeParse({ checkId, answers }).success).toBe(true);
    const newer = { ...keptBy(rosa, null), shape: 3 };
    const refused = recordAnswersRequest.safeParse({ checkId, answers, kept: newer });
    expect(refused.error?.issues).toMatchObject([
      { path: ["kept", "shape"], message: expect.stringContaining("Nothing is lost") },
    ]);
  });
});

describe("a reading far from its history", () => {
  it("is asked about before it is recorded, and its confirmation is kept with the answer", async () => {
    const check = await beginCheck(department, "OR 1", mika);
    const gauge = check.items.find(
      ({ form, subjectName }) => form.kind === "gauge" && subjectName.startsWith("Oxygen"),
    );
    if (gauge?.form.kind !== "gauge") throw new Error("no oxygen gauge is asked");
    const good = goodAnswer(gauge);
    // One person's new answer replaces their own; each of these stands beside the others.
    const others = await Promise.all(["Ona Reed", "Tom Vale"].map((name) => department.person(name, ["technician"])));
    for (const person of [mika, rosa, ...others])
      await department.must(recordAnswers, { checkId: check.id, answers: [given(gauge, good)] }, person);
    department.clock.add(2);
    const slip = { kind: "gauge", reading: { value: 137, unit: "psi" }, openWhenRead: true, shutAgain: true } as const;
    await expectRefused(department, recordAnswers, { checkId: check.id, answers: [given(gauge, slip)] }, mika, {
      refusal: "invalid",
      message: /1,900 psi is usual here.*figure in bar/,
      field: "answers.0.answer.reading",
    });
    const answers = [given(gauge, { ...slip, sure: true })];
    await department.must(recordAnswers, { checkId: check.id, answers }, mika);
    expect((await rows(check.id)).at(-1)?.answer).toMatchObject({ sure: true });
  });
});
