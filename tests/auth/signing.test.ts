import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { lock, switchPerson, unlock } from "@/lib/auth/lock";
import { actorOfSession, forgetSession } from "@/lib/auth/session";
import { openSessionOf, signIn } from "@/lib/auth/sign-in";
import { proofWithoutSession, proveSigner } from "@/lib/auth/signing";
import { execute } from "@/lib/commands/execute";
import { addPerson } from "@/lib/commands/people";
import { setPin } from "@/lib/commands/pin";
import { setAccess } from "@/lib/commands/set-access";
import { signCheck } from "@/lib/commands/sign-check";
import type { GivenSignature } from "@/lib/domain/signature/model";
import { instant } from "@/lib/units/time";
import { answerRest, beginCheck } from "@/tests/support/room-work";
import { type SmallDepartment, smallDepartment } from "@/tests/support/small-department";

const PASSWORD = "a first password of the tests";
const PIN = "274916";
const BROWSER = "b".repeat(64);
let department: SmallDepartment;
const before = process.env.DATABASE_URL;

beforeAll(async () => {
  department = await smallDepartment();
  process.env.DATABASE_URL = department.appUrl;
  const asked = { seenVersion: 1, signing: "two-then-one" as const, idleMinutes: 10, mapping: null };
  await department.must(setAccess, asked, department.admin);
});
afterAll(async () => {
  const shared = globalThis as { __yokeboardClosers?: Set<() => Promise<void>> };
  for (const close of shared.__yokeboardClosers ?? []) await close();
  process.env.DATABASE_URL = before;
  await department.close();
});

let added = 0;
/** A technician with a PIN and an open session in one browser. */
async function somebody(browser = BROWSER): Promise<Actor> {
  added += 1;
  const person = {
    userId: `signer.${added}`,
    name: `Signer ${added}`,
    roles: ["technician" as const],
    password: PASSWORD,
  };
  const { personId } = await department.must(addPerson, person, department.admin);
  const opened = await signIn(person.userId, PASSWORD, "a desk", department.database, undefined, browser);
  if (!opened.ok) throw new Error(opened.reason);
  const actor = await actorOf(opened.sessionId);
  expect(actor.personId).toBe(personId);
  await department.must(setPin, { current: { kind: "password", value: PASSWORD }, pin: PIN }, actor);
  return actor;
}

async function actorOf(sessionId: string): Promise<Actor> {
  forgetSession(null);
  const actor = await actorOfSession(sessionId, department.database);
  if (!actor) throw new Error("the session is not open");
  return actor;
}

const pin = (value = PIN) => ({ kind: "pin" as const, value });
const proving = (actor: Actor, given: GivenSignature | null, now = Date.now(), device = "a desk") =>
  proveSigner(actor, given, device, department.database, instant(now));
const said = async (...words: Parameters<typeof proving>) => {
  const proof = await proving(...words);
  return proof.ok ? proof.value.components : proof.refusal;
};

describe("what a signature asks for", () => {
  it("both components first, one after that, and both again after a lock or a pause", async () => {
    const actor = await somebody();
    const both = { userId: actor.userId, secret: pin() };
    expect(await said(actor, { secret: pin() })).toBe("signature-required");
    expect(await said(actor, null)).toBe("signature-required");
    expect(await said(actor, both)).toEqual(["user-id", "pin"]);
    expect(await said(actor, { secret: pin() })).toEqual(["pin"]);
    expect(await said(actor, { secret: { kind: "password", value: PASSWORD } })).toEqual(["password"]);
    expect(await said(actor, { secret: pin() }, Date.now() + 11 * 60_000)).toBe("signature-required");
    await lock(actor, department.database);
    expect(await said(actor, both)).toBe("locked");
    expect(await unlock(actor, pin(), "a desk", department.database)).toMatchObject({ ok: true });
    expect(await said(actor, { secret: pin() })).toBe("signature-required");
    expect(await said(actor, both)).toEqual(["user-id", "pin"]);
  });

  it("is a person's own: nobody else's id, no token, no session that has ended", async () => {
    const [actor, other] = [await somebody(), await somebody("c".repeat(64))];
    expect(await said(actor, { userId: other.userId, secret: pin() })).toBe("signature-wrong");
    expect(await said({ ...actor, kind: "token" }, { userId: actor.userId, secret: pin() })).toBe("not-allowed");
    expect(await said({ ...actor, sessionId: crypto.randomUUID() }, { userId: actor.userId, secret: pin() })).toBe(
      "sign-in-required",
    );
    const theirs = await proving(other, { userId: other.userId, secret: pin() });
    if (!theirs.ok) throw new Error(theirs.message);
    const check = await beginCheck(department, "OR 1", actor);
    const input = { checkId: check.id, seenVersion: check.version };
    expect(await execute(department, signCheck, input, actor, null, theirs.value)).toMatchObject({
      refusal: "not-allowed",
    });
    expect(await execute(department, signCheck, input, actor)).toMatchObject({ refusal: "signature-required" });
    expect(() => proofWithoutSession(actor)).toThrow();
  });

  it("locks the PIN after five wrong ones on a device; the password signs on, and saving was never stopped", async () => {
    const actor = await somebody();
    const both = { userId: actor.userId, secret: pin() };
    expect(await said(actor, both)).toEqual(["user-id", "pin"]);
    for (let attempt = 1; attempt <= 5; attempt += 1)
      expect(await said(actor, { secret: pin("111222") }, Date.now(), "ward phone")).toBe("signature-wrong");
    expect(await said(actor, { secret: pin() }, Date.now(), "ward phone")).toBe("too-many");
    expect(await said(actor, { secret: pin() })).toEqual(["pin"]);
    const check = await beginCheck(department, "OR 1", actor);
    const { recorded } = await answerRest(department, check.id, actor);
    expect(recorded.length).toBeGreaterThan(5);
    expect(await said(actor, { secret: { kind: "password", value: PASSWORD } }, Date.now(), "ward phone")).toEqual([
      "password",
    ]);
  });
});

describe("the record of a signature", () => {
  it("has the name, the meaning, the time, what was given, and the digest of what was shown; never the secret", async () => {
    const actor = await somebody();
    const check = await beginCheck(department, "OR 1", actor);
    const { version } = await answerRest(department, check.id, actor);
    const proof = await proving(actor, { userId: actor.userId, secret: pin() });
    if (!proof.ok) throw new Error(proof.message);
    const done = await execute(
      department,
      signCheck,
      { checkId: check.id, seenVersion: version },
      actor,
      null,
      proof.value,
    );
    expect(done).toMatchObject({ ok: true });
    const leaf = await department.database.inScope(scopeOf(actor), (tx) =>
      tx.leaf.findFirstOrThrow({ orderBy: { sequence: "desc" } }),
    );
    const { entry } = JSON.parse(leaf.body) as { entry: { signature: unknown; data: { boundTo: string } } };
    expect(entry.signature).toEqual({
      name: actor.name,
      meaning: "performed",
      at: expect.stringMatching(/Z$/),
      components: ["user-id", "pin"],
      digest: entry.data.boundTo,
    });
    expect(leaf.body).not.toContain(PIN);
  });
});

describe("a shared screen", () => {
  it("shows one person: who comes in locks the others, and a PIN switches between whom the browser knows", async () => {
    const browser = "d".repeat(64);
    const [first, second] = [await somebody(browser), await somebody(browser)];
    const state = async (actor: Actor) => (await actorOf(actor.sessionId ?? "")).session?.locked;
    expect([await state(first), await state(second)]).toEqual([true, false]);
    const from = { hash: browser, device: "a desk" };
    expect(await switchPerson(first.userId, "111222", from, department.database)).toMatchObject({
      refusal: "signature-wrong",
    });
    expect(await switchPerson(first.userId, PIN, from, department.database)).toMatchObject({ ok: true });
    expect([await state(first), await state(second)]).toEqual([false, true]);
    const elsewhere = { hash: "e".repeat(64), device: "a desk" };
    expect(await switchPerson(first.userId, PIN, elsewhere, department.database)).toMatchObject({
      refusal: "sign-in-required",
    });
  });

  it("keeps one session a person: coming in again ends the older one there", async () => {
    const actor = await somebody("f".repeat(64));
    const person = { ...actor, facilities: [{ id: actor.facility.id }] };
    const again = await openSessionOf(person, { method: "password", browser: "f".repeat(64) }, department.database);
    expect(again.ok).toBe(true);
    forgetSession(null);
    expect(await actorOfSession(actor.sessionId ?? "", department.database)).toBeNull();
  });
});
