import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { rejudgeAll } from "@/lib/commands/rejudge";
import type { Answer } from "@/lib/domain/answer";
import { readPastBoard } from "@/lib/queries/as-of";
import type { CheckItemView } from "@/lib/schemas/check";
import { instant, timestampOf } from "@/lib/units/time";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { checkWhole, readingOf, roomNamed } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;

/** Minutes of the department's clock. */
const DAY = 24 * 60;
const MORNINGS = 8;

/** A reserve that loses a little every night, beside a room that has no history. */
beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  for (let morning = 0; morning < MORNINGS; morning += 1) {
    if (morning > 0) department.clock.add(DAY);
    await checkWhole(department, "OR 2", technician, falling(morning));
  }
  await checkWhole(department, "OR 1", technician);
});
afterAll(() => department.close());

const falling =
  (morning: number) =>
  (question: CheckItemView): Answer => {
    const good = goodAnswer(question);
    if (good.kind !== "gauge" || !question.subjectName.startsWith("Oxygen")) return good;
    const { value, unit } = good.reading;
    return { ...good, reading: { unit, value: Math.round(value * (1 - 0.05 * morning)) } };
  };

interface Row {
  item: string;
  crossing: string | null;
  at: string;
}
const rows = () =>
  department.database.inScope(
    scopeOf(technician),
    (tx) => tx.$queryRaw<Row[]>`SELECT item, crossing::text, at::text FROM derived.trend ORDER BY at, subject_id`,
  );
const headlineOf = async (room: string) => (await roomNamed(department, room)).headlineRule;

describe("trends are computed when a reading is written", () => {
  it("a reserve that falls towards its limit is told before it stops the room", async () => {
    const found = await rows();
    expect(found.length).toBeGreaterThan(0);
    expect(new Set(found.map(({ item }) => item))).toEqual(new Set(["cylinder-gauge"]));
    expect(found.every(({ crossing }) => crossing !== null)).toBe(true);
    expect(await headlineOf("OR 2")).toBe("trend-crossing");
    expect(await headlineOf("OR 1")).not.toBe("trend-crossing");
    await expectFresh(department);
  });

  it("a rebuild finds the same trend from the readings alone, and writes nothing when it is there", async () => {
    const before = await rows();
    await rejudgeAll(department.database, department.clock, scopeOf(technician));
    expect(await rows()).toEqual(before);
    await department.database.inScope(scopeOf(technician), (tx) => tx.$executeRaw`DELETE FROM derived.trend`);
    await rejudgeAll(department.database, department.clock, scopeOf(technician));
    expect((await rows()).at(-1)?.crossing).toBe(before.at(-1)?.crossing);
    expect(await headlineOf("OR 2")).toBe("trend-crossing");
  });

  it("readings that break the fall end the trend, and the reason with it; the earlier moment keeps both", async () => {
    const before = department.clock.now();
    for (const _morning of [1, 2]) {
      department.clock.add(DAY);
      await checkWhole(department, "OR 2", technician, falling(0));
    }
    expect((await rows()).at(-1)?.crossing).toBeNull();
    expect(await headlineOf("OR 2")).not.toBe("trend-crossing");
    const past = await readPastBoard(department.admin, timestampOf(instant(before)), readingOf(department));
    const then = past.ok ? past.value.rooms.find(({ name }) => name === "OR 2") : null;
    expect(then?.reasons.map(({ rule }) => rule)).toContain("trend-crossing");
  });
});
