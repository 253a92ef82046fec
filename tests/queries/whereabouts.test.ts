import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { readSpares } from "@/lib/queries/spares";
import { readWhereabouts } from "@/lib/queries/whereabouts";
import { answerRest, readingOf, roomNamed } from "@/tests/support/room-work";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

let department: SmallDepartment;
let technician: Actor;
beforeAll(async () => {
  department = await smallDepartment("2026-11-24T12:10:00Z");
  technician = await department.person("Rosa Osei", ["technician"]);
});
afterAll(() => department.close());

const where = (id: string) => readWhereabouts(technician, id, readingOf(department));

describe("where the link on a label leads", () => {
  it("is the room in which the workstation stands now", async () => {
    const { roomId, workstation } = await roomNamed(department, "OR 1");
    expect(await where(workstation?.id ?? "")).toEqual({ tag: "AW-01", roomId, taskKey: null });
  });

  it("is a spare’s own check while it owes one, and no task afterwards", async () => {
    const { roomId } = await roomNamed(department, "OR 1");
    const spares = await readSpares(technician, roomId, readingOf(department));
    const spare = [...(spares?.suitable ?? []), ...(spares?.unsuitable ?? [])].find(({ tag }) => tag === "AW-02");
    const workstationId = spare?.workstationId ?? "";
    expect(await where(workstationId)).toEqual({ tag: "AW-02", roomId: null, taskKey: `check:${workstationId}` });
    const { checkId } = await department.must(startCheck, { workstationId, kind: "daily" }, technician);
    const { version } = await answerRest(department, checkId, technician);
    await department.must(signCheck, { checkId, seenVersion: version }, technician);
    expect(await where(workstationId)).toEqual({ tag: "AW-02", roomId: null, taskKey: null });
  });

  it.each(["0b9f3c1e-5d7a-4e21-9c44-7f2a1c3d5e6f", "AW-01", ""])("is nowhere for “%s”", async (id) => {
    expect(await where(id)).toBeNull();
  });
});
