import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { approveRules } from "@/lib/commands/approve-rules";
import { declineRules, proposeRules } from "@/lib/commands/propose-rules";
import { readEvidence } from "@/lib/queries/evidence";
import { readHistory } from "@/lib/queries/history";
import { readRules } from "@/lib/queries/rules";
import { expectRefused } from "@/tests/support/refusals";
import { checkWhole, readingOf, roomNamed } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let author: Actor;
let approver: Actor;
let technician: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  author = await department.person("Ines Falk", ["manager"]);
  approver = await department.person("Jo Marsh", ["biomedical-engineer"]);
  technician = await department.person("Rosa Osei", ["technician", "provider"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const psi = (value: number) => ({ value, unit: "psi" as const });
const reason = "Our policy of this year.";
const reserve = (value: number) => ({
  rule: "reserve-oxygen-low",
  change: { on: true, values: { atLeast: psi(value) } },
  reason,
});
const propose = async (input: Parameters<typeof proposeRules.locks>[0]) =>
  (await department.must(proposeRules, input, author)).changeId;
const line = async (id: string) => {
  const view = await readRules(author, readingOf(department));
  return { ...view, line: view.rules.find((rule) => rule.id === id) };
};

describe("two people change a limit", () => {
  it("it is in force at once in every room, and the old version stays readable with both names", async () => {
    await checkWhole(department, "OR 1", technician, (item) =>
      item.item === "cylinder-gauge" && item.subjectName.startsWith("Oxygen")
        ? { kind: "gauge", reading: psi(1100), openWhenRead: true, shutAgain: true }
        : goodAnswer(item),
    );
    expect((await roomNamed(department, "OR 1")).state).toBe("ready");
    const changeId = await propose(reserve(1200));
    // Proposed is not in force.
    expect((await roomNamed(department, "OR 1")).state).toBe("ready");
    expect((await line("reserve-oxygen-low")).line).toMatchObject({ version: 0 });
    const { settingsVersion } = await department.must(approveRules, { changeId }, approver);
    expect(await roomNamed(department, "OR 1")).toMatchObject({
      state: "do-not-use",
      headlineRule: "reserve-oxygen-low",
    });
    const { line: changed, settingsVersion: inForce, past } = await line("reserve-oxygen-low");
    expect(inForce).toBe(settingsVersion);
    expect(changed).toMatchObject({ on: true, version: settingsVersion });
    expect(changed?.values.find(({ name }) => name === "atLeast")).toMatchObject({
      shipped: psi(1000),
      present: psi(1200),
    });
    expect(past).toMatchObject([
      {
        id: changeId,
        proposedBy: "Ines Falk",
        decidedBy: "Jo Marsh",
        decision: "approved",
        settingsVersion,
        was: null,
      },
    ]);
    const { roomId } = await roomNamed(department, "OR 1");
    const evidence = await readEvidence(author, roomId, readingOf(department));
    expect(evidence).toMatchObject({
      settingsVersion,
      settings: { "reserve-oxygen-low": { version: settingsVersion } },
    });
    const versions = await department.database.inScope(
      scopeOf(author),
      (tx) =>
        tx.$queryRaw<
          { version: number; document: object }[]
        >`SELECT version, document FROM fact.settings_version ORDER BY version`,
    );
    expect(versions.map(({ version }) => version)).toEqual([settingsVersion - 1, settingsVersion]);
    expect(versions[0]?.document).toEqual({});
    const { entries } = await readHistory(author, { limit: 5 } as never, readingOf(department));
    const texts = entries.map(({ text }) => text);
    expect(texts).toContainEqual(
      expect.stringMatching(/^Proposed a change of the rule reserve-oxygen-low: at least 1,200 psi/),
    );
    expect(texts).toContainEqual(
      expect.stringMatching(/^Approved the change of the rule reserve-oxygen-low that Ines Falk proposed/),
    );
  });

  it("goes back to the default, and a rule that is off gives no reason", async () => {
    const back = await propose({ rule: "reserve-oxygen-low", change: "shipped", reason });
    await department.must(approveRules, { changeId: back }, approver);
    expect((await roomNamed(department, "OR 1")).state).toBe("ready");
    expect((await line("reserve-oxygen-low")).line?.version).toBe(0);
    const off = await propose({ rule: "reserve-oxygen-second", change: { on: false, values: {} }, reason });
    await department.must(approveRules, { changeId: off }, approver);
    expect((await line("reserve-oxygen-second")).line).toMatchObject({ on: false });
  });

  it("never one person alone, and never twice", async () => {
    const changeId = await propose({ rule: "oxygen-drift", change: { on: false, values: {} }, reason });
    const own = { refusal: "not-allowed", field: "changeId", message: /You proposed this change yourself/ } as const;
    await expectRefused(department, approveRules, { changeId }, author, own);
    const open = {
      refusal: "taken",
      field: "rule",
      message: /Ines Falk has proposed a change of this rule already/,
    } as const;
    const other = {
      rule: "oxygen-drift",
      change: { on: true, values: { within: { value: 2, unit: "%" as const } } },
      reason,
    };
    await expectRefused(department, proposeRules, other, approver, open);
    await department.must(declineRules, { changeId, reason: "It is needed." }, approver);
    const decided = { refusal: "already-done", field: "changeId", message: /declined already/ } as const;
    await expectRefused(department, approveRules, { changeId }, approver, decided);
  });

  it("the database itself refuses an approval by the author", async () => {
    const changeId = await propose({ rule: "oxygen-drift", change: { on: false, values: {} }, reason });
    const alone = department.database.inScope(
      scopeOf(author),
      (tx) =>
        tx.$executeRaw`UPDATE fact.rule_change SET decision = 'approved', decided_by = proposed_by, decided_role = 'manager', decided_at = proposed_at WHERE id = ${changeId}::uuid`,
    );
    await expect(alone).rejects.toThrow(/rule_change_by_two/);
    const mine = await department.must(declineRules, { changeId, reason: "Taken back." }, author);
    expect(mine.decision).toBe("withdrawn");
  });

  it("two approvals at once: one is done, one is told", async () => {
    const changeId = await propose({ rule: "label-missing", change: { on: false, values: {} }, reason });
    const second = await department.person("Ada Vane", ["charge-provider"]);
    const both = await Promise.all([
      department.run(approveRules, { changeId }, approver),
      department.run(approveRules, { changeId }, second),
    ]);
    expect(both.filter(({ ok }) => ok)).toHaveLength(1);
    expect(both.find(({ ok }) => !ok)).toMatchObject({ refusal: "already-done" });
  });
});

describe("a value is of the rule's own kind, unit and range", () => {
  it.each([
    {
      rule: "reserve-oxygen-low",
      values: { atLeast: { value: 10_001, unit: "psi" } },
      field: "values.atLeast",
      message: /10,001 psi is too far from the shipped 1,000 psi; give from 100 to 10,000 psi/,
    },
    {
      rule: "reserve-oxygen-low",
      values: { atLeast: { value: 50, unit: "mL/min" } },
      field: "values.atLeast",
      message: /does not measure this; give it in psi, kPa/,
    },
    {
      rule: "reserve-oxygen-low",
      values: { atLeast: 1000 },
      field: "values.atLeast",
      message: /Give a value with its unit, such as 1,000 psi/,
    },
    {
      rule: "reserve-oxygen-low",
      values: { atleast: psi(900) },
      field: "values.atleast",
      message: /is not a value of this rule; it has atLeast/,
    },
    {
      rule: "reserve-oxygen-low",
      values: { judgeBy: "weight" },
      field: "values.judgeBy",
      message: /give one of pressure, litres, minutes/,
    },
    {
      rule: "oxygen-pipeline",
      values: { stopBelow: psi(52) },
      field: "values.stopBelow",
      message: /52 psi would change places with notice below at 50 psi/,
    },
    { rule: "oxygen-after-flush", values: { over: { value: 101, unit: "%" } }, field: "values.over", message: /101 %/ },
    {
      rule: "vaporizer-fill",
      values: { dueUnder: 1.5 },
      field: "values.dueUnder",
      message: /1\.5 is not a share; give from 0 to 1/,
    },
    {
      rule: "repeated-failures",
      values: { failures: 2.5 },
      field: "values.failures",
      message: /give a whole number from 1 to 30/,
    },
    {
      rule: "check-validity",
      values: { turnsAt: "3 am" },
      field: "values.turnsAt",
      message: /is not a time of day; give one such as 03:00/,
    },
    {
      rule: "held",
      values: { after: 3 },
      field: "values.after",
      message: /has no values; it can only be switched off/,
    },
  ] as const)("$rule $values", async ({ rule, values, field, message }) => {
    const input = { rule, change: { on: true, values }, reason };
    await expectRefused(department, proposeRules, input as never, author, { refusal: "invalid", field, message });
  });

  it("what only says how long is not switched off, and what changes nothing is not proposed", async () => {
    const off = { rule: "check-validity", change: { on: false, values: {} }, reason };
    await expectRefused(department, proposeRules, off, author, {
      refusal: "invalid",
      field: "on",
      message: /cannot be switched off/,
    });
    const same = { rule: "held", change: { on: true, values: {} }, reason };
    await expectRefused(department, proposeRules, same, author, {
      refusal: "already-done",
      field: "values",
      message: /Nothing would change/,
    });
    const unknown = { rule: "no-such", change: "shipped" as const, reason };
    await expectRefused(department, proposeRules, unknown, author, {
      refusal: "not-found",
      field: "rule",
      message: /no rule "no-such"/,
    });
  });

  it("within them every way of writing the limit is taken", async () => {
    const changeId = await propose({
      rule: "suction",
      change: { on: true, values: { atLeast: { value: 45, unit: "kPa" } } },
      reason,
    });
    await department.must(approveRules, { changeId }, approver);
    expect((await line("suction")).line?.values[0]?.present).toEqual({ value: 45, unit: "kPa" });
  });
});
