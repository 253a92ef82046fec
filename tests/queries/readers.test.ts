import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { startCheck } from "@/lib/commands/start-check";
import { may, PERMISSIONS } from "@/lib/domain/permission";
import { readCheck } from "@/lib/queries/check";
import { readEvidence } from "@/lib/queries/evidence";
import { readHistory } from "@/lib/queries/history";
import { readPeople } from "@/lib/queries/people";
import { readRoom } from "@/lib/queries/room";
import { readSession } from "@/lib/queries/session";
import { readTask } from "@/lib/queries/task";
import { readTasks } from "@/lib/queries/tasks";
import { checkWhole, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let provider: Actor;
const reading = () => readingOf(department);

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
});
afterAll(() => department.close());

describe("what is not there", () => {
  it("is null for every reader, whether the id is unknown, of another kind or no id at all", async () => {
    const { roomId } = await roomNamed(department, "OR 1");
    const workstationId = await workstationIn(department, "OR 1");
    for (const id of [crypto.randomUUID(), "no-id", "", "\u0000", workstationId]) {
      expect(await readRoom(technician, id, reading())).toBeNull();
      expect(await readEvidence(technician, id, reading())).toBeNull();
    }
    for (const id of [crypto.randomUUID(), "no-id", "\u0000", roomId])
      expect(await readCheck(technician, id, reading())).toBeNull();
    for (const key of ["check:nothing", "", "\u0000", "\ud800", "x".repeat(500)])
      expect(await readTask(technician, key, reading())).toBeNull();
  });
});

describe("the list of tasks", () => {
  it("puts what stops a room before what is owed, and says why each stands where it does", async () => {
    await checkWhole(department, "OR 3", technician, (item) =>
      item.item === "suction" ? { kind: "number", reading: { value: 20, unit: "mmHg" } } : goodAnswer(item),
    );
    const { tasks } = await readTasks(technician, reading());
    expect(tasks[0]).toMatchObject({ room: { name: "OR 3" }, severity: "stops", kind: "clear" });
    const rank = ["stops", "owed", "limits", "due"];
    const ranks = tasks.filter(({ room }) => room !== null).map(({ severity }) => rank.indexOf(severity));
    expect(ranks).toEqual([...ranks].sort((left, right) => left - right));
    for (const { placed } of tasks) expect(placed).toMatch(/\S/);
  });

  it("shows to each person the check that is open for them, and to nobody else", async () => {
    const { checkId } = await department.must(
      startCheck,
      { workstationId: await workstationIn(department, "OR 2"), kind: "daily" },
      technician,
    );
    const openFor = async (actor: Actor) =>
      (await readTasks(actor, reading())).tasks.find(({ room, kind }) => room?.name === "OR 2" && kind === "check")
        ?.openCheckId;
    expect(await openFor(technician)).toBe(checkId);
    expect(await openFor(provider)).toBeNull();
  });
});

describe("history", () => {
  it("is read by room, by person, page by page, newest first", async () => {
    const { roomId } = await roomNamed(department, "OR 3");
    const whole = await readHistory(technician, { limit: 200 }, reading());
    expect(whole.next).toBeNull();
    const ofRoom = await readHistory(technician, { room: roomId, limit: 200 }, reading());
    expect(ofRoom.entries).toEqual(whole.entries.filter(({ rooms }) => rooms.some(({ id }) => id === roomId)));
    expect(ofRoom.entries.length).toBeGreaterThanOrEqual(4);
    const ofPerson = await readHistory(technician, { person: technician.personId, limit: 200 }, reading());
    expect(ofPerson.entries).toEqual(whole.entries.filter(({ person }) => person.id === technician.personId));
    const first = await readHistory(technician, { room: roomId, limit: 2 }, reading());
    const second = await readHistory(technician, { room: roomId, limit: 200, before: first.next ?? 0 }, reading());
    expect([...first.entries, ...second.entries]).toEqual(ofRoom.entries);
    const sequences = whole.entries.map(({ sequence }) => sequence);
    expect(sequences).toEqual([...sequences].sort((left, right) => right - left));
  });
});

describe("who is here", () => {
  it("people come with the roles of this facility; a session offers what its roles allow and no more", async () => {
    const { people } = await readPeople(provider, reading());
    expect(people.find(({ id }) => id === technician.personId)).toMatchObject({
      name: "Rosa Osei",
      roles: ["technician"],
      active: true,
    });
    const session = await readSession(provider, reading());
    const allowed = Object.keys(PERMISSIONS).filter((command) =>
      may(["provider"], command as keyof typeof PERMISSIONS),
    );
    expect(session.mayDo).toEqual(allowed);
    expect(session.mayDo).toContain("confirm-check");
    expect(session.mayDo).not.toContain("swap-cylinder");
  });
});
