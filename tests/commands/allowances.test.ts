import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { allowLimit } from "@/lib/commands/allow-limit";
import { fitPart, removePart } from "@/lib/commands/fit-part";
import { importDepartment } from "@/lib/commands/import-department";
import { endCase, startCase } from "@/lib/commands/occupancy";
import { prepareVaporFree } from "@/lib/commands/prepare-vapor-free";
import { requestVaporFree, withdrawVaporFree } from "@/lib/commands/request-vapor-free";
import { revokeAllowance } from "@/lib/commands/revoke-allowance";
import { readAllowances } from "@/lib/queries/allowances";
import { instant, later, MINUTE, timestampOf } from "@/lib/units/time";
import { checkWhole, readingOf, roomNamed, workstationIn } from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let technician: Actor;
let charge: Actor;
let engineer: Actor;
let manager: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  technician = await department.person("Rosa Osei", ["technician"]);
  charge = await department.person("Ines Marlow", ["provider", "charge-provider"]);
  engineer = await department.person("Otto Lang", ["biomedical-engineer", "manager"]);
  manager = await department.person("Hanna Peel", ["manager", "biomedical-engineer"]);
});
afterAll(() => department.close());

const view = () => readAllowances(charge, readingOf(department));
const limitsIn = async (name: string) => (await view()).limits.filter(({ room }) => room?.name === name);
const limitOf = async (rule: string, name = "OR 3") => (await limitsIn(name)).find((limit) => limit.rule === rule);
const at = (minutes: number) => timestampOf(later(instant(department.clock.now()), minutes * MINUTE));

describe("use with a limit", () => {
  let workstationId = "";
  const allow = (actor: Actor, rule: string, allowFor: "this-list" | "1-day" | "10-days") =>
    department.run(allowLimit, { workstationId, rule, allowFor, measures: "Propofol pump in the room." }, actor);

  beforeAll(async () => {
    await checkWhole(department, "OR 2", technician, (item) =>
      item.item === "vaporizer-fill" ? { kind: "choice", choice: "empty" } : goodAnswer(item),
    );
    workstationId = await workstationIn(department, "OR 2");
  });

  it("is told with who may, what is done first and what is done differently", async () => {
    const limits = await limitsIn("OR 2");
    expect(limits.map(({ rule }) => rule).sort()).toEqual(["no-usable-vaporizer", "vaporizer-lost"]);
    for (const limit of limits) {
      expect(limit).toMatchObject({ standing: "not-allowed", mayAllow: ["charge-provider"], until: null });
      expect(limit.first).toMatch(/./);
    }
  });

  it("holds for this list, with name and measures, and ends after it: the next case is stopped", async () => {
    const [{ rule } = { rule: "" }] = await limitsIn("OR 2");
    expect(await allow(charge, rule, "this-list")).toMatchObject({ ok: true });
    const allowed = await limitOf(rule, "OR 2");
    expect(allowed).toMatchObject({ standing: "allowed", measures: "Propofol pump in the room." });
    expect(allowed?.by).toEqual([{ name: "Ines Marlow", role: "charge-provider" }]);
    const { roomId, listEnd } = await roomNamed(department, "OR 2");
    expect(allowed?.until).toBe(listEnd);
    await department.must(startCase, { roomId }, charge);
    department.clock.set(listEnd ?? "");
    department.clock.add(20);
    const running = await roomNamed(department, "OR 2");
    expect([running.state, running.occupancy.state]).toEqual(["ready-limited", "in-use"]);
    await department.must(endCase, { roomId }, charge);
    expect(await limitOf(rule, "OR 2")).toMatchObject({ standing: "ended" });
    expect(await department.run(startCase, { roomId }, charge)).toMatchObject({ ok: false, refusal: "not-allowed" });
    // Past its end it is neither prolonged nor taken back: it is cleared.
    expect(await allow(charge, rule, "1-day")).toMatchObject({ ok: false, refusal: "not-allowed" });
    expect(await department.run(revokeAllowance, { workstationId, rule, reason: "Late." }, charge)).toMatchObject({
      ok: false,
      refusal: "moved-on",
    });
  });

  it("of a late service needs two persons: one with both roles is still one", async () => {
    const service = "workstation,plan,due,window from,window to\nAW-04,half-yearly,today-60,today-90,today-30";
    await department.must(importDepartment, { files: { service } }, department.admin);
    await checkWhole(department, "OR 3", technician);
    workstationId = await workstationIn(department, "OR 3");
    expect(await allow(engineer, "service-late", "10-days")).toMatchObject({
      value: { reply: { stillNeeds: ["manager"] } },
    });
    expect(await allow(engineer, "service-late", "10-days")).toMatchObject({
      value: { reply: { stillNeeds: ["manager"] } },
    });
    expect(await limitOf("service-late")).toMatchObject({ standing: "waits", stillNeeds: ["manager"] });
    expect((await roomNamed(department, "OR 3")).limitsAllowed).toBe(false);
    expect(await allow(manager, "service-late", "10-days")).toMatchObject({ value: { reply: { stillNeeds: [] } } });
    const limit = await limitOf("service-late");
    expect(limit).toMatchObject({ standing: "allowed" });
    expect(limit?.by.map(({ name }) => name).sort()).toEqual(["Hanna Peel", "Otto Lang"]);
    expect((await roomNamed(department, "OR 3")).limitsAllowed).toBe(true);
  });

  it("is taken back with a reason by who may allow it, and by nobody else", async () => {
    const input = { workstationId, rule: "service-late", reason: "The vaporizer came back leaking." };
    expect(await department.run(revokeAllowance, input, charge)).toMatchObject({ ok: false, refusal: "not-allowed" });
    department.clock.add(1);
    await department.must(revokeAllowance, input, manager);
    expect(await limitOf("service-late")).toMatchObject({ standing: "not-allowed", until: null });
    expect((await roomNamed(department, "OR 3")).limitsAllowed).toBe(false);
    expect(await department.run(revokeAllowance, input, manager)).toMatchObject({ ok: false, refusal: "not-found" });
  });
});

describe("a vapor-free preparation", () => {
  let workstationId = "";
  let roomId = "";
  let vaporizerId = "";
  const prepare = (from: number, to: number, method: "flush" | "filters" = "flush") =>
    department.run(prepareVaporFree, { workstationId, method, startedAt: at(from), endedAt: at(to) }, technician);
  const standing = async () => (await view()).vaporFree.find(({ room }) => room.id === roomId);

  beforeAll(async () => {
    department.clock.set("2026-11-25T11:30:00Z");
    await checkWhole(department, "OR 3", technician);
    ({ roomId } = await roomNamed(department, "OR 3"));
    workstationId = await workstationIn(department, "OR 3");
    const found = await department.database.inScope(
      { organisationId: charge.organisationId, facilityId: charge.facility.id },
      (tx) => tx.vaporizer.findFirst({ where: { tag: "VP-04" } }),
    );
    vaporizerId = found?.id ?? "";
  });

  it.each([
    ["a time that has passed", -10],
    ["a time three weeks ahead", 21 * 24 * 60],
  ])("is not asked for at %s", async (_name, minutes) => {
    expect(await department.run(requestVaporFree, { roomId, neededAt: at(minutes) }, charge)).toMatchObject({
      ok: false,
      refusal: "invalid",
      field: "neededAt",
    });
  });

  it("asked for, it is a need of the list: the room is not for it until somebody has prepared it", async () => {
    expect((await roomNamed(department, "OR 3")).readyForList).toBe(true);
    await department.must(requestVaporFree, { roomId, neededAt: at(180), note: "Case of 09:30." }, charge);
    const row = await roomNamed(department, "OR 3");
    expect(row).toMatchObject({ readyForList: false });
    expect(row.needs).toContain("vapor-free");
    expect(await standing()).toMatchObject({
      standing: "to-prepare",
      why: "Not vapor-free: a vaporizer is mounted",
      by: "Ines Marlow",
      flushMinutes: 20,
    });
  });

  it("is not recorded while a vaporizer is mounted, nor for a flush that began before it came off", async () => {
    expect(await prepare(-30, 0)).toMatchObject({ ok: false, refusal: "does-not-fit" });
    await department.must(removePart, { workstationId, kind: "vaporizer", partId: vaporizerId }, technician);
    department.clock.add(30);
    expect(await prepare(-40, 0)).toMatchObject({ ok: false, refusal: "invalid", field: "startedAt" });
    expect(await prepare(-10, 10)).toMatchObject({ ok: false, refusal: "invalid", field: "endedAt" });
    expect(await prepare(-5, -10)).toMatchObject({ ok: false, refusal: "invalid", field: "startedAt" });
    expect(await prepare(-25, 0, "filters")).toMatchObject({ ok: false, refusal: "does-not-fit", field: "method" });
  });

  it("too short is on record and prepares nothing; the model's own minutes do", async () => {
    expect(await prepare(-19, 0)).toMatchObject({ ok: true });
    expect(await standing()).toMatchObject({
      standing: "to-prepare",
      why: "Not vapor-free: flushed 19 min (at least 20 min)",
    });
    department.clock.add(2);
    expect(await prepare(-20, 0)).toMatchObject({ value: { reply: { minutes: 20 } } });
    expect(await standing()).toMatchObject({ standing: "prepared" });
  });

  it("ends when a vaporizer is mounted", async () => {
    department.clock.add(5);
    const part = { kind: "vaporizer", which: { id: vaporizerId } } as const;
    await department.must(fitPart, { workstationId, part, position: "1", takesOff: null }, technician);
    expect(await standing()).toMatchObject({ standing: "to-prepare" });
  });

  it("withdrawn, it is no need any more", async () => {
    const { requestId } = (await standing()) ?? {};
    await department.must(withdrawVaporFree, { requestId: requestId ?? "", roomId }, charge);
    expect(await standing()).toBeUndefined();
    expect((await roomNamed(department, "OR 3")).needs).not.toContain("vapor-free");
    expect(await department.run(withdrawVaporFree, { requestId: requestId ?? "", roomId }, charge)).toMatchObject({
      ok: false,
      refusal: "not-found",
    });
  });
});
