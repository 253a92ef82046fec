import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { scopeOf } from "@/lib/auth/actor";
import { passwordMatches } from "@/lib/auth/password";
import { actorOfSession } from "@/lib/auth/session";
import { addPerson, changeRoles, givePassword } from "@/lib/commands/people";
import { addRooms, retireRoom, setRoom } from "@/lib/commands/set-room";
import { readBoard } from "@/lib/queries/board";
import { readHistory } from "@/lib/queries/history";
import { passwordOf } from "@/lib/storage/people";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { expectRefused } from "@/tests/support/refusals";
import { readingOf } from "@/tests/support/room-work";
import { openSession, type SmallDepartment, smallDepartment } from "@/tests/support/small-department";
import { newRoom } from "./prepared-set-up";

let department: SmallDepartment;
let manager: Actor;
beforeAll(async () => {
  department = await smallDepartment();
  manager = await department.person("Ines Falk", ["manager"]);
});
afterAll(() => department.close());

const board = async () => (await readBoard(manager, readingOf(department))).rooms;
const asked = async (names: string[], walkingOrder: number) => {
  const { roomId: _, name: _n, ...room } = await newRoom({ department, helper: manager });
  return { ...room, names, walkingOrder };
};

describe("several rooms at once", () => {
  it("stand on the board judged, one after the other on the walk, with one entry in the history", async () => {
    const names = ["East 1", "East 2", "East 3"];
    const { roomIds } = await department.must(addRooms, await asked(names, 500), manager);
    const rows = (await board()).filter(({ roomId }) => roomIds.includes(roomId));
    expect(rows.map(({ name, walkingOrder, state }) => ({ name, walkingOrder, state }))).toEqual(
      names.map((name, at) => ({ name, walkingOrder: 500 + at, state: rows[0]?.state })),
    );
    await expectFresh(department);
    const { entries } = await readHistory(manager, { limit: 1 }, readingOf(department));
    expect(entries[0]?.text).toMatch(/^Added 3 rooms in .*: East 1, East 2 and East 3$/);
  });

  it("are added all or none: a name that is taken, retired, or given twice names itself", async () => {
    const before = (await board()).length;
    const taken = { refusal: "taken", field: "names", message: /^OR 1: There is a room named so already/ } as const;
    await expectRefused(department, addRooms, await asked(["West 1", "or 1"], 600), manager, taken);
    const twice = { refusal: "invalid", field: "names", message: /^west 1 is named twice/ } as const;
    await expectRefused(department, addRooms, await asked(["West 1", "west 1"], 600), manager, twice);
    const { roomId } = await department.must(
      setRoom,
      await newRoom({ department, helper: manager }, "Gone 1"),
      manager,
    );
    await department.must(retireRoom, { roomId }, manager);
    const retired = { refusal: "taken", field: "names", message: /it is retired/ } as const;
    await expectRefused(department, addRooms, await asked(["West 1", "Gone 1"], 600), manager, retired);
    expect((await board()).length).toBe(before);
  });

  it.each([
    { field: "suiteId", message: /no suite with this id/ },
    { field: "zoneId", message: /no pipeline zone with this id/ },
  ])("an unknown $field is refused by its field", async ({ field, message }) => {
    const input = { ...(await asked(["West 9"], 700)), [field]: "00000000-0000-4000-8000-000000000000" };
    await expectRefused(department, addRooms, input, manager, { refusal: "not-found", field, message });
  });
});

describe("a new first password", () => {
  const OLD = "the old password here";
  const NEW = "the new password here";
  const hashOf = (personId: string) =>
    department.database.inScope(scopeOf(department.admin), (tx) => passwordOf(tx, personId));

  it("is the one that holds, and ends every session by the old one", async () => {
    const person = { userId: "f.orgot", name: "Fay Orgot", roles: ["technician" as const], password: OLD };
    const { personId } = await department.must(addPerson, person, department.admin);
    const session = await openSession(department, { ...department.admin, personId });
    expect(await actorOfSession(session, department.database)).not.toBeNull();
    await department.must(givePassword, { personId, password: NEW }, department.admin);
    const hash = (await hashOf(personId)) ?? "";
    expect([await passwordMatches(hash, OLD), await passwordMatches(hash, NEW)]).toEqual([false, true]);
    expect(
      await actorOfSession(await openSession(department, { ...department.admin, personId }), department.database),
    ).not.toBeNull();
    const ended = await department.database.inScope(scopeOf(department.admin), (tx) =>
      tx.session.findFirst({ where: { id: session } }),
    );
    expect(ended?.endedAt).not.toBeNull();
    const { entries } = await readHistory(manager, { limit: 1 }, readingOf(department));
    expect(entries[0]?.text).toBe("Gave Fay Orgot a new first password");
    expect(JSON.stringify(entries[0])).not.toContain(NEW);
  });

  it("is not for oneself, nor for somebody unknown", async () => {
    const own = { personId: department.admin.personId, password: NEW };
    const refused = { refusal: "not-allowed", field: "personId", message: /This is you/ } as const;
    await expectRefused(department, givePassword, own, department.admin, refused);
    const unknown = { personId: "00000000-0000-4000-8000-000000000000", password: NEW };
    const none = { refusal: "not-found", field: "personId", message: /no such person/ } as const;
    await expectRefused(department, givePassword, unknown, department.admin, none);
  });

  it("somebody who has left stays by name and is brought back with roles", async () => {
    const person = { userId: "l.eaver", name: "Lea Ver", roles: ["supplies" as const], password: OLD };
    const { personId } = await department.must(addPerson, person, department.admin);
    await department.must(changeRoles, { personId, roles: [], active: false }, department.admin);
    const { entries } = await readHistory(manager, { limit: 1 }, readingOf(department));
    expect(entries[0]?.text).toBe("Changed Lea Ver to: inactive");
    await department.must(changeRoles, { personId, roles: ["supplies"], active: true }, department.admin);
    expect((await readHistory(manager, { limit: 1 }, readingOf(department))).entries[0]?.text).toBe(
      "Changed Lea Ver to: supplies",
    );
  });
});
