import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { scopeOf } from "@/lib/auth/actor";
import { actorOfSession, forgetSession } from "@/lib/auth/session";
import { changeFacility, signIn, signOut } from "@/lib/auth/sign-in";
import { addFacility } from "@/lib/commands/found";
import { addPerson, changeRoles, setPassword } from "@/lib/commands/people";
import type { Role } from "@/lib/domain/vocabulary";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

const PASSWORD = "a first password of the tests";
let department: SmallDepartment;
const before = process.env.DATABASE_URL;

beforeAll(async () => {
  department = await smallDepartment();
  // The counters of attempts have a pool of their own, on the application's database.
  process.env.DATABASE_URL = department.appUrl;
});
afterAll(async () => {
  const shared = globalThis as { __yokeboardClosers?: Set<() => Promise<void>> };
  for (const close of shared.__yokeboardClosers ?? []) await close();
  process.env.DATABASE_URL = before;
  await department.close();
});

let added = 0;
async function somebody(roles: readonly Role[] = ["technician"]): Promise<{ userId: string; personId: string }> {
  added += 1;
  const person = { userId: `person.${added}`, name: `Person ${added}`, roles: [...roles], password: PASSWORD };
  return { userId: person.userId, ...(await department.must(addPerson, person, department.admin)) };
}

const entering = (userId: string, password = PASSWORD, device = "a phone") =>
  signIn(userId, password, device, department.database);
const outcome = async (...words: Parameters<typeof entering>) => {
  const result = await entering(...words);
  return result.ok ? "in" : result.reason;
};
const actorOf = (sessionId: string) => actorOfSession(sessionId, department.database);
const opened = async (userId: string, password = PASSWORD) => {
  const result = await entering(userId, password);
  if (!result.ok) throw new Error(`${userId}: ${result.reason}`);
  return result.sessionId;
};

describe("signing in", () => {
  it("opens a session with the roles on record, whatever the case of the id", async () => {
    const { userId, personId } = await somebody(["technician", "provider"]);
    const actor = await actorOf(await opened(`  ${userId.toUpperCase()} `));
    expect(actor).toMatchObject({
      personId,
      userId,
      roles: ["provider", "technician"],
      facility: { id: department.admin.facility.id, name: "Alder Ridge" },
    });
  });

  it("says the same to a wrong password, an unknown id, an empty one and somebody who left", async () => {
    const { userId, personId } = await somebody();
    const wrong = await entering(userId, "not the password");
    expect(wrong).toEqual({ ok: false, reason: "wrong" });
    expect(await entering("nobody.here", PASSWORD)).toEqual(wrong);
    expect(await entering("", "")).toEqual(wrong);
    expect(await entering("\u0000", "\u0000")).toEqual(wrong);
    await department.must(changeRoles, { personId, roles: ["technician"], active: false }, department.admin);
    expect(await entering(userId)).toEqual(wrong);
  });

  it("locks an id on one device after ten failures, also for the right password, and nowhere else", async () => {
    const [{ userId }, other] = [await somebody(), await somebody()];
    for (let attempt = 1; attempt <= 10; attempt += 1)
      expect(await outcome(userId, "wrong", "ward phone")).toBe("wrong");
    const locked = await entering(userId, PASSWORD, "ward phone");
    expect(locked).toMatchObject({ ok: false, reason: "too-many" });
    const wait = locked.ok ? 0 : (locked.retryAfterSeconds ?? 0);
    expect(wait).toBeGreaterThan(14 * 60);
    expect(wait).toBeLessThanOrEqual(15 * 60);
    expect(await outcome(other.userId, PASSWORD, "ward phone")).toBe("in");
    expect(await outcome(userId, PASSWORD, "desk")).toBe("in");
    expect(await outcome(userId, PASSWORD, "ward phone")).toBe("too-many");
  });

  it("counts many at once one by one", async () => {
    const { userId } = await somebody();
    const outcomes = await Promise.all(Array.from({ length: 25 }, () => outcome(userId, "wrong", "a script")));
    expect(outcomes.filter((one) => one === "wrong").length).toBe(10);
    expect(outcomes.filter((one) => one === "too-many").length).toBe(15);
  });

  it("forgets the failures of a device with the first success on it", async () => {
    const { userId } = await somebody();
    for (let round = 0; round < 3; round += 1) {
      for (let attempt = 1; attempt <= 9; attempt += 1)
        expect(await outcome(userId, "wrong", "shared desk")).toBe("wrong");
      expect(await outcome(userId, PASSWORD, "shared desk")).toBe("in");
    }
  });

  it("locks an id everywhere after fifty failures from many devices; successes do not count", async () => {
    const { userId } = await somebody();
    for (let success = 0; success < 5; success += 1) expect(await outcome(userId, PASSWORD, "own desk")).toBe("in");
    for (let attempt = 0; attempt < 50; attempt += 1)
      expect(await outcome(userId, "wrong", `device ${attempt % 7}`)).toBe("wrong");
    expect(await outcome(userId, PASSWORD, "own desk")).toBe("too-many");
  });
});

describe("a session", () => {
  it("ends with signing out, and its id opens nothing any more", async () => {
    const { userId } = await somebody();
    const sessionId = await opened(userId);
    expect(await actorOf(sessionId)).toMatchObject({ userId });
    await signOut({ sessionId, ...scopeOf(department.admin) }, department.database);
    expect(await actorOf(sessionId)).toBeNull();
    expect(await actorOf(crypto.randomUUID())).toBeNull();
  });

  it("ends after fourteen hours of real time", async () => {
    const { userId } = await somebody();
    const sessionId = await opened(userId);
    const end = (
      await department.database.inScope(scopeOf(department.admin), (tx) =>
        tx.session.findUniqueOrThrow({ where: { id: sessionId } }),
      )
    ).expiresAt;
    expect(Math.abs(end.getTime() - Date.now() - 14 * 3_600_000)).toBeLessThan(60_000);
    await department.database.inScope(scopeOf(department.admin), (tx) =>
      tx.session.update({ where: { id: sessionId }, data: { expiresAt: new Date(Date.now() - 1) } }),
    );
    forgetSession(sessionId);
    expect(await actorOf(sessionId)).toBeNull();
  });

  it("ends when somebody's roles change or they leave", async () => {
    const { userId, personId } = await somebody(["technician"]);
    for (const change of [
      { roles: ["provider" as const], active: true },
      { roles: ["provider" as const], active: false },
    ]) {
      const sessionId = await opened(userId);
      await department.must(changeRoles, { personId, ...change }, department.admin);
      forgetSession(null);
      expect(await actorOf(sessionId)).toBeNull();
    }
  });

  it("of a person who changes the password goes on; the others end, and the old password opens nothing", async () => {
    const { userId, personId } = await somebody();
    const [own, other] = [await opened(userId), await opened(userId)];
    const actor = { ...department.admin, personId, userId, sessionId: own };
    const next = "another password of the tests";
    const wrong = await department.run(setPassword, { current: "not the password", next }, actor);
    expect(wrong).toMatchObject({ ok: false, refusal: "invalid", field: "current" });
    await department.must(setPassword, { current: PASSWORD, next }, actor);
    forgetSession(null);
    expect(await actorOf(own)).toMatchObject({ personId });
    expect(await actorOf(other)).toBeNull();
    expect([await outcome(userId, PASSWORD), await outcome(userId, next)]).toEqual(["wrong", "in"]);
  });

  it("moves to another facility with the roles its person has there", async () => {
    const { userId } = { userId: "abrook" };
    const result = await entering(userId, "a long enough password");
    if (!result.ok) throw new Error(result.reason);
    const facility = {
      name: "Alder Ridge East",
      timeZone: "Europe/London",
      scheme: "ISO",
      pressureUnit: "bar",
    } as const;
    const added = await addFacility(department, facility, department.admin);
    if (!added.ok) throw new Error(added.message);
    const session = { sessionId: result.sessionId, personId: result.personId, ...scopeOf(department.admin) };
    expect(await changeFacility(session, added.value.facilityId, department.database)).toBe(true);
    expect(await actorOf(result.sessionId)).toMatchObject({
      facility: { id: added.value.facilityId, scheme: "ISO", timeZone: "Europe/London" },
      roles: ["administrator", "manager"],
    });
    expect(
      await changeFacility(
        { ...session, personId: crypto.randomUUID() },
        department.admin.facility.id,
        department.database,
      ),
    ).toBe(false);
  });

  it("of somebody with no role anywhere is not opened, though the password is right", async () => {
    const { userId, personId } = await somebody();
    await department.must(changeRoles, { personId, roles: [], active: true }, department.admin);
    expect(await outcome(userId)).toBe("no-facility");
    expect(await outcome(userId, "wrong")).toBe("wrong");
  });
});
