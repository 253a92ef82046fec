import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { changeRoles } from "@/lib/commands/people";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import { readPeople } from "@/lib/queries/people";
import { readTasks } from "@/lib/queries/tasks";
import { expectFresh } from "@/tests/support/fresh-readiness";
import { answerRest, beginCheck, given, question, readingOf, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let rosa: Actor;
let omar: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  rosa = await department.person("Rosa Osei", ["technician"]);
  omar = await department.person("Omar Quist", ["technician"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const TURNS = Array.from({ length: 4 }, (_, turn) => turn);
const inScope = () => scopeOf(rosa);
const fittedOn = async (workstationId: string, position: string) => {
  const fitted = await department.database.inScope(inScope(), (tx) =>
    tx.fitting.findMany({ where: { workstationId, position, itemKind: "cylinder", to: null } }),
  );
  return fitted.map(({ itemId }) => itemId);
};
const cylinder = async (serial: string) => {
  const found = await department.database.inScope(inScope(), (tx) => tx.cylinder.findFirst({ where: { serial } }));
  if (!found) throw new Error(`no cylinder ${serial}`);
  return found;
};

describe("two people at once", () => {
  it("claim one task: one has it, the other is told who", async () => {
    const { tasks } = await readTasks(rosa, readingOf(department));
    const key = tasks.find(({ room }) => room?.name === "OR 1")?.key ?? "";
    for (const turn of TURNS) {
      const order = turn % 2 === 0 ? [rosa, omar] : [omar, rosa];
      const outcomes = await Promise.all(order.map((actor) => department.run(claimTask, { key }, actor)));
      const winner = order[outcomes.findIndex(({ ok }) => ok)];
      const lost = outcomes.filter((outcome) => !outcome.ok);
      expect(lost).toEqual([
        { ok: false, refusal: "taken", message: `${winner?.name} has this task already. Nothing was changed.` },
      ]);
      await department.must(giveBackTask, { key }, winner ?? rosa);
    }
  });

  it("sign one check: it is signed once, and the second is told by whom", async () => {
    const check = await beginCheck(department, "OR 1", rosa);
    const { version } = await answerRest(department, check.id, rosa);
    const outcomes = await Promise.all(
      [rosa, omar].map((actor) => department.run(signCheck, { checkId: check.id, seenVersion: version }, actor)),
    );
    const winner = [rosa, omar][outcomes.findIndex(({ ok }) => ok)];
    expect(outcomes.filter((outcome) => !outcome.ok)).toEqual([
      {
        ok: false,
        refusal: "already-done",
        message: `This check was finished and signed by ${winner?.name}. Nothing was changed.`,
      },
    ]);
    const signatures = await department.database.inScope(inScope(), (tx) =>
      tx.signature.findMany({ where: { checkId: check.id } }),
    );
    expect(signatures.map(({ personId, meaning }) => [personId, meaning])).toEqual([[winner?.personId, "performed"]]);
    await expectFresh(department);
  });

  it("record in one check while it is being signed: what was not seen is not signed for", async () => {
    for (const _ of TURNS) {
      department.clock.add(1);
      const check = await beginCheck(department, "OR 1", rosa);
      const { version } = await answerRest(department, check.id, rosa);
      const bag = given(question(check, "self-inflating-bag"), { kind: "pass", passed: false });
      const [signed, recorded] = await Promise.all([
        department.run(signCheck, { checkId: check.id, seenVersion: version }, rosa),
        department.run(recordAnswers, { checkId: check.id, answers: [bag] }, omar),
      ]);
      // Either the signature came first and the answer is refused, or the answer did and the signature is.
      expect([signed.ok, recorded.ok].sort()).toEqual([false, true]);
      expect(signed.ok ? recorded : signed).toMatchObject({ refusal: signed.ok ? "already-done" : "moved-on" });
      if (!signed.ok) await department.must(signCheck, { checkId: check.id, seenVersion: version + 1 }, rosa);
      await expectFresh(department);
    }
  });

  it("fit the same cylinder to two yokes: it goes on one, and the other yoke keeps what it had", async () => {
    const spare = await cylinder("OX-50003");
    const places = await Promise.all(
      ["OR 2", "OR 3"].map(async (room) => ({ room, workstationId: await workstationIn(department, room) })),
    );
    const before = new Map(
      await Promise.all(
        places.map(async ({ workstationId }) => [workstationId, await fittedOn(workstationId, "1")] as const),
      ),
    );
    const outcomes = await Promise.all(
      places.map(({ workstationId }, place) =>
        department.run(
          swapCylinder,
          { workstationId, position: "1", cylinder: { id: spare.id }, takenOff: "empty" },
          place === 0 ? rosa : omar,
        ),
      ),
    );
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes.find(({ ok }) => !ok)).toMatchObject({
      refusal: "taken",
      message: expect.stringMatching(/OX-50003 is fitted to AW-0[34]|taken in the meantime/),
    });
    for (const [place, { workstationId }] of places.entries())
      expect(await fittedOn(workstationId, "1")).toEqual(outcomes[place]?.ok ? [spare.id] : before.get(workstationId));
    await expectFresh(department);
  });

  it("swap on one yoke, each having seen the same cylinder there: the second is told that it is another by now", async () => {
    const workstationId = await workstationIn(department, "OR 1");
    const [seen = ""] = await fittedOn(workstationId, "1");
    const spares = await Promise.all(["OX-40118", "OX-50004"].map(cylinder));
    const outcomes = await Promise.all(
      spares.map(({ id }, place) =>
        department.run(
          swapCylinder,
          { workstationId, position: "1", cylinder: { id }, takesOff: seen, takenOff: "empty" },
          place === 0 ? rosa : omar,
        ),
      ),
    );
    const won = outcomes.findIndex(({ ok }) => ok);
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    expect(outcomes[1 - won]).toMatchObject({
      refusal: "moved-on",
      field: "takesOff",
      message: expect.stringContaining(spares[won]?.serial ?? "?"),
    });
    expect(await fittedOn(workstationId, "1")).toEqual([spares[won]?.id]);
    expect((await cylinder(spares[1 - won]?.serial ?? "")).contents).toBe("full");
    await expectFresh(department);
  });

  it("administrators who remove each other: one of them stays", async () => {
    const others = await Promise.all(
      ["Ana Voss", "Ben Adair"].map((name) => department.person(name, ["administrator"])),
    );
    await department.must(
      changeRoles,
      { personId: department.admin.personId, roles: ["manager"], active: true },
      others[0] ?? rosa,
    );
    const [ana = rosa, ben = rosa] = others;
    const remove = (by: Actor, whom: Actor) =>
      department.run(changeRoles, { personId: whom.personId, roles: [], active: true }, by);
    const outcomes = await Promise.all([remove(ana, ben), remove(ben, ana)]);
    expect(outcomes.filter(({ ok }) => ok).length).toBe(1);
    const { people } = await readPeople(rosa, readingOf(department));
    expect(people.filter(({ active, roles }) => active && roles.includes("administrator")).length).toBe(1);
  });
});

describe("many people on one workstation", () => {
  it("leave no stale readiness, whoever was last", async () => {
    const people = await Promise.all(
      ["Ida Falk", "Leo Marr", "Uma Reed", "Jon Stack"].map((name) => department.person(name, ["provider"])),
    );
    for (const turn of TURNS.slice(1)) {
      department.clock.add(1);
      const work = people.map(async (actor, place) => {
        const check = await beginCheck(department, "OR 2", actor);
        for (const [order, item] of check.items.slice(place * 3, place * 3 + 3).entries()) {
          const fails = item.form.kind === "pass" && (turn + place + order) % 3 === 0;
          const answer = fails ? ({ kind: "pass", passed: false } as const) : goodAnswer(item);
          await department.must(recordAnswers, { checkId: check.id, answers: [given(item, answer)] }, actor);
        }
        const { version } = await answerRest(department, check.id, actor);
        return department.run(signCheck, { checkId: check.id, seenVersion: version }, actor);
      });
      expect((await Promise.all(work)).every(({ ok }) => ok)).toBe(true);
      await expectFresh(department);
    }
  });
});
