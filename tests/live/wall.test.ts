import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { claimTask } from "@/lib/commands/claim-task";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import type { Hub } from "@/lib/live/hub";
import { readBoard } from "@/lib/queries/board";
import { readWall } from "@/lib/queries/wall";
import { wallBoard } from "@/lib/schemas/wall";
import { openTasks } from "@/lib/storage/tasks";
import { openSession, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { checkWorkstation } from "./checked-room";
import { type Instance, startInstance } from "./instance";
import { Screen } from "./screen";

const NAME = "Rosa Osei";
let department: SmallDepartment;
let technician: Actor;
let instance: Instance;
let workstationId: string;

beforeAll(async () => {
  department = await smallDepartment();
  technician = await department.person(NAME, ["technician"]);
  const { rooms } = await readBoard(technician, { database: department.database, now: department.clock.now });
  workstationId = rooms.find(({ workstation }) => workstation)?.workstation?.id ?? "";
});
afterAll(() => department.close());
afterEach(() => instance?.hub.close());

async function watch(hub: Hub, audience: "staff" | "wall"): Promise<Screen> {
  const screen = new Screen();
  hub.subscribe(technician.facility.id, await openSession(department, technician), screen, audience);
  await screen.until("hello");
  return screen;
}

const scope = () => ({ organisationId: technician.organisationId, facilityId: technician.facility.id });
const wallNow = () => readWall(scope(), { database: department.database, now: department.clock.now });

/** Somebody's name stands on a mark, on claimed work, and in a hold's reason. */
async function namesEverywhere(): Promise<void> {
  await checkWorkstation(department, technician, workstationId);
  await department.must(holdWorkstation, { workstationId, reason: `${NAME} heard a hiss` }, technician);
  const tasks = await department.database.inScope(scope(), (tx) => openTasks(tx, technician.facility.id));
  const [task] = tasks.filter((one) => one.workstationId === workstationId && one.draft.kind !== "confirm");
  if (!task) throw new Error("nothing to claim");
  await department.must(claimTask, { key: task.key }, technician);
}

describe("the wall of a facility", () => {
  it("is sent whole with every change, at once after hello, and never with a name or in somebody's words", async () => {
    instance = startInstance(department);
    const [wall, board] = [await watch(instance.hub, "wall"), await watch(instance.hub, "staff")];
    const first = await wall.until("wall");
    await namesEverywhere();
    const isHeld = (row: { state: string }) => row.state === "do-not-use";
    const held = await wall.until("wall", ({ rooms }) => rooms.some(isHeld));
    await wall.until("wall", ({ rooms }) => rooms.some(({ work }) => work.some(({ inHandSince }) => inHandSince)));
    expect(held.rooms).toHaveLength(first.rooms.length);
    expect(held.rooms.find(isHeld)?.equipmentChecked).toBe(true);
    expect(wall.all("rows")).toEqual([]);
    expect(JSON.stringify(wall.heard)).not.toMatch(/Rosa|Osei|hiss/);
    // The staff's own stream does name them, so that the line above looks for what is really there.
    await board.until("rows", ({ rooms }) => JSON.stringify(rooms).includes(`${NAME} heard a hiss`));
    expect(board.all("wall")).toEqual([]);
  });

  it("is read without a name too, in the shape that the schema says", async () => {
    const wall = await wallNow();
    expect(wallBoard.parse(wall)).toEqual(wall);
    expect(wall.rooms.some(({ state }) => state === "do-not-use")).toBe(true);
    expect(JSON.stringify(wall)).not.toMatch(/Rosa|Osei|hiss/);
  });

  it("turns back when the hold is lifted", async () => {
    instance = startInstance(department);
    const wall = await watch(instance.hub, "wall");
    const holds = await department.database.inScope(scope(), (tx) => tx.hold.findMany({ where: { liftedAt: null } }));
    const holdId = holds[0]?.id ?? "";
    await department.must(liftHold, { workstationId, holdId, reason: "looked at: nothing" }, technician);
    await wall.until("wall", ({ sequence, rooms }) => sequence > 0 && !rooms.some((row) => row.state === "do-not-use"));
  });
});
