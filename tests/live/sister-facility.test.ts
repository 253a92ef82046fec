import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { addFacility } from "@/lib/commands/found";
import { importDepartment } from "@/lib/commands/import-department";
import { rejudgeDue } from "@/lib/commands/rejudge";
import { setModel } from "@/lib/commands/set-model";
import type { ItemId } from "@/lib/domain/items";
import { readBoard } from "@/lib/queries/board";
import { readPlaces } from "@/lib/queries/set-up";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { readingOf } from "@/tests/support/room-work";
import { openSession, type SmallDepartment, smallDepartment, templates } from "@/tests/support/small-department";
import { startInstance } from "./instance";
import { Screen } from "./screen";

let department: SmallDepartment;
/** The same person, in the sister facility, whose rooms have workstations of the same models. */
let there: Actor;

beforeAll(async () => {
  department = await smallDepartment();
  const facility = { name: "Tern Hollow", timeZone: "America/Chicago", scheme: "US", pressureUnit: "psi" } as const;
  const added = await addFacility(department, facility, department.admin);
  if (!added.ok) throw new Error(added.message);
  there = { ...department.admin, facility: { ...facility, id: added.value.facilityId } };
  const { people: _people, ...files } = templates();
  await department.must(importDepartment, { files }, there);
});
afterAll(() => department.close());

async function cover(item: ItemId, by: Actor): Promise<void> {
  const { models } = await readPlaces(by, readingOf(department));
  for (const { id, workstations, ...model } of models) {
    if (workstations === 0) continue;
    const selfTestCovers = [...model.selfTestCovers, item];
    await department.must(setModel, { ...model, modelId: id, selfTestCovers }, by);
  }
}

const stored = () =>
  department.database.inScope(scopeOf(there), (tx) => tx.readiness.findMany({ orderBy: { holderId: "asc" } }));
const withWorkstation = (rows: Awaited<ReturnType<typeof stored>>) =>
  rows.filter(({ holderKind, workstationId }) => holderKind === "workstation" || workstationId !== null);
const isDue = ({ goodUntil }: Awaited<ReturnType<typeof stored>>[number]) =>
  (goodUntil?.getTime() ?? 0) <= department.clock.now();

describe("a model that one facility changes", () => {
  it("is owed a judgement in its sister, which its readers make at once and the next sweep stores", async () => {
    expect((await stored()).filter(isDue)).toEqual([]);
    department.clock.add(1);
    await cover("low-pressure-leak", department.admin);
    const rows = await stored();
    const ofModels = withWorkstation(rows);
    expect(ofModels.length).toBeGreaterThan(1);
    expect(rows.filter(isDue)).toEqual(ofModels);
    expect((await readBoard(there, readingOf(department))).rooms.length).toBeGreaterThan(0);

    expect(await rejudgeDue(department.database, department.clock, scopeOf(there))).toBe(ofModels.length);
    expect((await stored()).filter(isDue)).toEqual([]);
    await expectFresh({ ...department, admin: there });
  });

  it("is judged again by the sister's open board, without anybody asking for it", async () => {
    department.clock.add(1);
    const at = department.clock.now();
    const instance = startInstance(department);
    try {
      const screen = new Screen();
      instance.hub.subscribe(there.facility.id, await openSession(department, there), screen);
      await screen.until("hello");
      await cover("breathing-leak", department.admin);
      await vi.waitFor(
        async () =>
          expect(withWorkstation(await stored()).filter(({ judgedAt }) => judgedAt.getTime() < at)).toEqual([]),
        { timeout: 10_000 },
      );
      expect((await stored()).filter(isDue)).toEqual([]);
      await expectFresh({ ...department, admin: there });
      expect(instance.problems).toEqual([]);
    } finally {
      await instance.hub.close();
    }
  });

  it("may be changed by both at one moment, and both are judged by what then stands", async () => {
    department.clock.add(1);
    await Promise.all([cover("apl", department.admin), cover("flow-controls", there)]);
    for (const by of [department.admin, there]) {
      await rejudgeDue(department.database, department.clock, scopeOf(by));
      await expectFresh({ ...department, admin: by });
    }
  });
});
