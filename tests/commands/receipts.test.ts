import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { startCase } from "@/lib/commands/occupancy";
import { addPerson } from "@/lib/commands/people";
import { contentsOf } from "@/tests/support/postgres";
import { checkWhole, roomNamed, workstationIn } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let charge: Actor;
let provider: Actor;
let workstationId: string;

beforeAll(async () => {
  department = await widerDepartment();
  charge = await department.person("Nia Hale", ["charge-provider", "technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
  workstationId = await workstationIn(department, "OR 1");
});
afterAll(() => department.close());

const held = () => contentsOf(department.appUrl, scopeOf(charge));
const holds = () =>
  department.database.inScope(scopeOf(charge), (tx) => tx.hold.findMany({ where: { liftedAt: null } }));
const REASON = "The bellows do not fill.";
const hold = (actor: Actor, key: string, reason = REASON) =>
  department.run(holdWorkstation, { workstationId, reason }, actor, key);

describe("a request that is sent twice", () => {
  it("gets the same reply, and nothing is done again", async () => {
    const first = await hold(charge, "key-of-the-first-hold");
    expect(first).toMatchObject({ ok: true, value: { replayed: false } });
    const before = await held();
    department.clock.add(5);
    const second = await hold(charge, "key-of-the-first-hold");
    expect(second).toEqual({
      ok: true,
      value: { reply: first.ok && first.value.reply, replayed: true, sequence: null },
    });
    expect(await held()).toEqual(before);
  });

  it("is the same request whatever the order of its fields", async () => {
    const swapped = { reason: REASON, workstationId };
    expect(await department.run(holdWorkstation, swapped, charge, "key-of-the-first-hold")).toMatchObject({
      ok: true,
      value: { replayed: true },
    });
  });

  it("with another content, or for another command, is told so and does nothing", async () => {
    const before = await held();
    const reused = { ok: false, refusal: "key-reused", message: expect.stringMatching(/Idempotency-Key/) };
    expect(await hold(charge, "key-of-the-first-hold", "Another reason.")).toEqual(reused);
    const [own] = await holds();
    expect(
      await department.run(
        liftHold,
        { workstationId, holdId: own?.id ?? "", reason: "Mended." },
        charge,
        "key-of-the-first-hold",
      ),
    ).toEqual(reused);
    expect(await held()).toEqual(before);
  });

  it("by another person is another request", async () => {
    expect(await hold(provider, "key-of-the-first-hold")).toMatchObject({ ok: true, value: { replayed: false } });
    expect((await holds()).map(({ by }) => by).sort()).toEqual([charge.personId, provider.personId].sort());
  });

  it("was refused the first time: the refusal is not kept, so the same request can succeed later", async () => {
    const { roomId } = await roomNamed(department, "OR 2");
    const start = () => department.run(startCase, { roomId }, charge, "key-of-the-case");
    expect(await start()).toMatchObject({ ok: false, refusal: "not-allowed" });
    await checkWhole(department, "OR 2", charge);
    expect(await start()).toMatchObject({ ok: true, value: { replayed: false } });
    expect(await start()).toMatchObject({ ok: true, value: { replayed: true } });
  });

  it("six copies at once: one effect, six equal replies", async () => {
    const other = await workstationIn(department, "OR 3");
    const before = (await holds()).length;
    const copies = Array.from({ length: 6 }, () =>
      department.run(holdWorkstation, { workstationId: other, reason: "Twice at once." }, charge, "key-of-six-copies"),
    );
    const outcomes = (await Promise.all(copies)).map((outcome) => {
      if (!outcome.ok) throw new Error(outcome.message);
      return outcome.value;
    });
    expect(outcomes.filter(({ replayed }) => !replayed).length).toBe(1);
    expect(new Set(outcomes.map(({ reply }) => reply.holdId)).size).toBe(1);
    expect((await holds()).length).toBe(before + 1);
  });

  it("four copies at once of what locks no room: the receipt itself makes them wait for each other", async () => {
    const person = {
      userId: "one.only",
      name: "Ivo Reck",
      roles: ["technician" as const],
      password: "a first password",
    };
    const copies = Array.from({ length: 4 }, () =>
      department.run(addPerson, person, department.admin, "key-of-four-copies"),
    );
    const outcomes = (await Promise.all(copies)).map((outcome) => (outcome.ok ? outcome.value : outcome));
    expect(outcomes.map((outcome) => ("replayed" in outcome ? outcome.replayed : outcome.message)).sort()).toEqual([
      false,
      true,
      true,
      true,
    ]);
  });

  it("without a key is two requests: the second meets what the first one did", async () => {
    const spare = await department.database.inScope(scopeOf(charge), (tx) =>
      tx.workstation.findFirst({ where: { tag: "AW-02" } }),
    );
    const twice = () => department.run(holdWorkstation, { workstationId: spare?.id ?? "", reason: "No key." }, charge);
    expect(await twice()).toMatchObject({ ok: true });
    expect(await twice()).toMatchObject({ ok: false, refusal: "already-done" });
  });
});
