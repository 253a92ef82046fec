import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { claimTask } from "@/lib/commands/claim-task";
import { holdWorkstation } from "@/lib/commands/hold";
import { closeRoom } from "@/lib/commands/occupancy";
import { recordAnswers } from "@/lib/commands/record-answers";
import { rejudgeAll, rejudgeDue } from "@/lib/commands/rejudge";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { readBoard } from "@/lib/queries/board";
import { readTasks } from "@/lib/queries/tasks";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { connected, tablesOf } from "@/tests/support/postgres";
import {
  beginCheck,
  checkWhole,
  given,
  question,
  readingOf,
  roomNamed,
  workstationIn,
} from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;

const FAILS = { kind: "pass", passed: false } as const;
const WORKS = { kind: "pass", passed: true } as const;
const DAY = 24 * 60;

/** A few days of everything that leaves something derived behind: old failures, slips, swaps, holds, claims. */
beforeAll(async () => {
  department = await widerDepartment("2026-11-20T11:30:00Z");
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider", "charge-provider"]);
  const old = await beginCheck(department, "OR 3", technician);
  await department.must(
    recordAnswers,
    { checkId: old.id, answers: [given(question(old, "cylinder-key"), FAILS)] },
    technician,
  );
  await checkWhole(department, "OR 1", technician);
  department.clock.add(4 * DAY);
  const slip = await beginCheck(department, "OR 3", provider);
  for (const answer of [FAILS, WORKS]) {
    department.clock.add(1);
    await department.must(
      recordAnswers,
      { checkId: slip.id, answers: [given(question(slip, "cylinder-key"), answer)] },
      provider,
    );
  }
  await checkWhole(department, "OR 2", technician);
  department.clock.add(5);
  const workstationId = await workstationIn(department, "OR 2");
  await department.must(
    swapCylinder,
    { workstationId, position: "1", cylinder: { serial: "OX-50003" }, takenOff: "empty" },
    technician,
  );
  await department.must(claimTask, { key: `recheck:${workstationId}` }, technician);
  await department.must(
    holdWorkstation,
    { workstationId: await workstationIn(department, "OR 1"), reason: "A hiss at the yoke." },
    provider,
  );
  await department.must(closeRoom, { roomId: (await roomNamed(department, "Procedure 1")).roomId }, provider);
  await rejudgeDue(department.database, department.clock, scopeOf(technician));
});
afterAll(() => department.close());

/** What is derived, without the numbers and moments that only say when it was derived. */
const derived = () =>
  department.database.inScope(scopeOf(technician), async (tx) => ({
    readiness: (await tx.readiness.findMany({ orderBy: { holderId: "asc" } })).map(
      ({ judgedAt: _judgedAt, ...rest }) => rest,
    ),
    tasks: (await tx.task.findMany({ where: { closedAt: null }, orderBy: { key: "asc" } })).map(
      ({ id: _id, openedAt: _openedAt, ...rest }) => rest,
    ),
    latest: await tx.latestObservation.findMany({
      orderBy: [{ keeperId: "asc" }, { item: "asc" }, { subjectId: "asc" }, { verdict: "asc" }],
    }),
    claims: await tx.claim.findMany({ where: { to: null } }),
  }));

describe("what is derived", () => {
  it("comes back from the facts alone, the same to the letter, after all of it was thrown away", async () => {
    // At one and the same moment, so that nothing differs by the clock.
    await rejudgeAll(department.database, department.clock, scopeOf(technician));
    const before = await derived();
    const seen = {
      board: await readBoard(technician, readingOf(department)),
      tasks: await readTasks(technician, readingOf(department)),
    };
    const states = Object.fromEntries(seen.board.rooms.map(({ name, state }) => [name, state]));
    expect(states).toEqual({
      "OR 1": "do-not-use",
      "OR 2": "to-check",
      "OR 3": "do-not-use",
      "Procedure 1": "out-of-service",
    });
    expect(before.latest.filter(({ verdict }) => verdict === "fail").length).toBe(1);
    expect(before.tasks.length).toBeGreaterThanOrEqual(4);
    expect(before.claims.length).toBe(1);

    await connected(department.ownerUrl, async (owner) => {
      const tables = (await tablesOf(owner)).filter((table) => table.startsWith("derived."));
      expect(tables.length).toBe(5);
      await owner.query(`TRUNCATE ${tables.join(", ")}`);
    });
    expect((await derived()).readiness).toEqual([]);

    expect(await rejudgeAll(department.database, department.clock, scopeOf(technician))).toBe(5);
    expect(await derived()).toEqual(before);
    expect(await readBoard(technician, readingOf(department))).toEqual(seen.board);
    const withoutOpening = ({ tasks }: typeof seen.tasks) => tasks.map(({ openedAt: _openedAt, ...rest }) => rest);
    expect(withoutOpening(await readTasks(technician, readingOf(department)))).toEqual(withoutOpening(seen.tasks));
    await expectFresh(department);
  });

  it("what commands kept up to date is what a rebuild makes", async () => {
    await checkWhole(department, "OR 3", technician);
    const kept = await derived();
    await rejudgeAll(department.database, department.clock, scopeOf(technician));
    expect(await derived()).toEqual(kept);
    expect((await roomNamed(department, "OR 3")).state).toBe("ready");
  });
});
