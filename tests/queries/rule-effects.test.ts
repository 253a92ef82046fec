import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { holdWorkstation } from "@/lib/commands/hold";
import { setWeeklyTemplate } from "@/lib/commands/set-weekly-template";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { readRules } from "@/lib/queries/rules";
import { checkWhole, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let manager: Actor;
let technician: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  manager = await department.person("Ines Falk", ["manager"]);
  technician = await department.person("Rosa Osei", ["technician", "provider"]);
});
afterAll(() => department.close());

const rule = async (id: string) => (await readRules(manager, readingOf(department))).rules.find((one) => one.id === id);
const lowReserve = (item: Parameters<typeof goodAnswer>[0]) =>
  item.item === "cylinder-gauge" && item.subjectName.startsWith("Oxygen")
    ? { kind: "gauge" as const, reading: { value: 600, unit: "psi" as const }, openWhenRead: true, shutAgain: true }
    : goodAnswer(item);

describe("what came of a rule", () => {
  it("counts where it began to show, and where somebody acted", async () => {
    expect(await rule("reserve-oxygen-low")).toMatchObject({ fired: 0, acted: 0, setWrong: false });
    await checkWhole(department, "OR 1", technician, lowReserve);
    await checkWhole(department, "OR 2", technician, lowReserve);
    expect(await rule("reserve-oxygen-low")).toMatchObject({ fired: 2, acted: 0 });
    department.clock.add(5);
    const workstationId = await workstationIn(department, "OR 1");
    const swap = { workstationId, position: "1", cylinder: { serial: "OX-40118" }, takenOff: "in-use" as const };
    await department.must(swapCylinder, swap, technician);
    // The other room's cylinder is still low, and nobody has done anything about it.
    expect(await rule("reserve-oxygen-low")).toMatchObject({ fired: 2, acted: 1 });
  });

  it("what is done more than ten minutes after it has gone is not because of it", async () => {
    await checkWhole(department, "OR 3", technician, (item) =>
      item.item === "suction" ? { kind: "number", reading: { value: 100, unit: "mmHg" } } : goodAnswer(item),
    );
    const before = await rule("suction");
    expect(before).toMatchObject({ fired: 1, acted: 0 });
    department.clock.add(5);
    await checkWhole(department, "OR 3", technician);
    department.clock.add(11);
    const workstationId = await workstationIn(department, "OR 3");
    await department.must(holdWorkstation, { workstationId, reason: "Something else." }, technician);
    expect(await rule("suction")).toMatchObject({ fired: 1, acted: 0 });
  });

  it("marks what shows in more than one room in five of those that ran", async () => {
    const roomIds: string[] = [];
    for (const name of ["OR 1", "OR 2", "OR 3"]) roomIds.push((await roomNamed(department, name)).roomId);
    const days = [
      { weekday: 2 as const, closed: false as const, firstCase: "07:15", ends: null, needs: [], setUpMinutes: 0 },
    ];
    await department.must(setWeeklyTemplate, { roomIds, days }, manager);
    const view = await readRules(manager, readingOf(department));
    expect(view.mornings).toBeGreaterThan(0);
    const low = view.rules.find(({ id }) => id === "reserve-oxygen-low");
    expect(low?.ordinaryShare).toBeGreaterThan(0.2);
    expect(low?.setWrong).toBe(true);
    expect(view.rules.find(({ id }) => id === "not-checked")).toMatchObject({ everyMorning: true, setWrong: false });
  });
});
