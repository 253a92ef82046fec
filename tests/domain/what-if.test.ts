import { describe, expect, it } from "vitest";
import type { Evidence, FittedCylinder } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { departmentLasts, onReserve, storedOxygen, suppose, withoutParts } from "@/lib/domain/what-if/decide";
import type { WithdrawnPart } from "@/lib/domain/what-if/model";
import { readyRoom } from "@/tests/support/ready-room";

const ready = readyRoom("US");
const named = (evidence: Evidence, name: string, zone: string | null): Evidence => ({
  ...evidence,
  room: evidence.room && { ...evidence.room, id: name, name, zone },
});
const inUse = (evidence: Evidence): Evidence => ({
  ...evidence,
  room: evidence.room && {
    ...evidence.room,
    occupancy: { state: "in-use", since: evidence.now, confirmed: true },
  },
});
/** The same room with its oxygen gauge at another reading. */
const gaugeAt = (evidence: Evidence, value: number): Evidence => {
  const oxygen = evidence.workstation?.fitted.cylinders.filter(({ gas }) => gas === "oxygen").map(({ id }) => id) ?? [];
  return {
    ...evidence,
    observations: evidence.observations.map((one) =>
      one.answer.kind === "gauge" && oxygen.includes(one.subject.id)
        ? { ...one, answer: { ...one.answer, reading: { value, unit: "psi" } } }
        : one,
    ),
  };
};
const unread = (evidence: Evidence): Evidence => ({
  ...evidence,
  observations: evidence.observations.filter(({ item }) => item !== "cylinder-gauge"),
});

describe("the oxygen pipeline fails now", () => {
  it("stops a room that was ready, and leaves what was supposed out of its own evidence", () => {
    const before = JSON.stringify(ready);
    const one = suppose(ready, { what: "pipeline-fails", zone: null });
    expect(one?.is.judgement.state).toBe("ready");
    expect(one?.wouldBe.judgement.state).toBe("do-not-use");
    expect(one?.wouldBe.judgement.reasons[0]?.rule).toBe("oxygen-pipeline");
    expect(JSON.stringify(ready)).toBe(before);
    expect(judge(ready).state).toBe("ready");
  });

  it("asks a room with a case in it to act now", () => {
    expect(suppose(inUse(ready), { what: "pipeline-fails", zone: null })?.wouldBe.judgement.whenInUse).toBe("act-now");
  });

  it("touches its own zone alone, and no room without piped oxygen", () => {
    expect(suppose(named(ready, "A", "North"), { what: "pipeline-fails", zone: "South" })).toBeNull();
    expect(suppose(named(ready, "A", "South"), { what: "pipeline-fails", zone: "South" })).not.toBeNull();
    const dry = { ...ready, room: ready.room && { ...ready.room, piped: [] } };
    expect(suppose(dry, { what: "pipeline-fails", zone: null })).toBeNull();
  });

  it("tells the shortest first, and an unread gauge before all", () => {
    const rooms = [
      named(ready, "full", null),
      named(gaugeAt(ready, 700), "low", null),
      named(unread(ready), "unread", null),
    ];
    const order = onReserve(rooms);
    expect(order.map(({ room }) => room)).toEqual(["unread", "low", "full"]);
    const [, low, full] = order;
    expect(order[0]?.minutesByHand).toBeNull();
    expect(low?.minutesByHand ?? 0).toBeLessThan(full?.minutesByHand ?? 0);
    // A gas-driven bellows lives on the reserve, too.
    expect(full?.drivenByOxygen).toBe(true);
    expect(full?.minutesOnVentilator ?? 0).toBeLessThan(full?.minutesByHand ?? 0);
  });
});

describe("how long the department lasts", () => {
  const cylinder = ready.workstation?.fitted.cylinders.find(({ gas }) => gas === "oxygen") as FittedCylinder;
  const rooms = [named(ready, "A", null), named(gaugeAt(ready, 900), "B", null)];

  it("counts the store's full cylinders down to the residual", () => {
    const one = storedOxygen([cylinder], ready);
    const three = storedOxygen([cylinder, cylinder, cylinder], ready);
    // An E cylinder of 660 L less what 200 psi hold, by the equation of state, and its low end.
    expect(one.litres).toBeGreaterThan(500);
    expect(one.litres).toBeLessThan(640);
    expect(three.cylinders).toBe(3);
    expect(Math.abs(three.litres - 3 * one.litres)).toBeLessThanOrEqual(2);
    expect(storedOxygen([], ready)).toEqual({ cylinders: 0, litres: 0 });
  });

  it("ends for the first room at its own time, and later for all with a store than without", () => {
    const none = departmentLasts(rooms, { cylinders: 0, litres: 0 }, "by-hand");
    const some = departmentLasts(rooms, { cylinders: 2, litres: 1100 }, "by-hand");
    const alone = onReserve(rooms).find(({ room }) => room === "B");
    expect(none?.firstOut).toEqual({ room: "B", minutes: alone?.minutesByHand });
    expect(none?.allRooms).toBe(none?.firstOut.minutes);
    expect(some?.allRooms ?? 0).toBeGreaterThan(none?.allRooms ?? 0);
    // 1,100 L more at 8 L/min a room can give at most 1100/16 minutes to both beyond what they hold together.
    const together = onReserve(rooms).reduce((sum, { minutesByHand }) => sum + (minutesByHand ?? 0) * 8, 1100) / 16;
    expect(Math.abs((some?.allRooms ?? 0) - together)).toBeLessThanOrEqual(1);
  });

  it("is not told where nobody read a gauge", () => {
    expect(departmentLasts([unread(ready)], { cylinders: 5, litres: 3000 }, "by-hand")).toBeNull();
  });
});

describe("a workstation goes out, parts are withdrawn", () => {
  const withdraw = (part: WithdrawnPart, name: string) => suppose(ready, { what: "withdrawn", part, named: name });

  it("leaves the room without a workstation, and no other room", () => {
    const id = ready.workstation?.id ?? "";
    expect(suppose(ready, { what: "workstation-out", workstationId: id })?.wouldBe.judgement.state).toBe(
      "out-of-service",
    );
    expect(suppose(ready, { what: "workstation-out", workstationId: "another" })).toBeNull();
  });

  it("a vaporizer: its agent is lost while another one is there", () => {
    const [first, second] = ready.workstation?.fitted.vaporizers ?? [];
    expect(second).toBeDefined();
    const one = withdraw("vaporizer", first?.tag ?? "");
    expect(one?.gone).toEqual([`${first?.agent} vaporizer ${first?.tag}`]);
    expect(one?.wouldBe.judgement.state).toBe("ready-limited");
    expect(one?.wouldBe.judgement.limits).toEqual([`no-${first?.agent}`]);
  });

  it("a lot of cylinders by the beginning of its serial numbers, whatever the case", () => {
    const serial = ready.workstation?.fitted.cylinders.find(({ gas }) => gas === "oxygen")?.serial ?? "";
    const one = withdraw("cylinder", serial.slice(0, 2).toLowerCase());
    expect(one?.gone.length).toBeGreaterThan(0);
    expect(one?.wouldBe.judgement.state).toBe("do-not-use");
    expect(one?.wouldBe.judgement.reasons.map(({ rule }) => rule)).toContain("reserve-oxygen-low");
    expect(withdraw("cylinder", "no such serial")).toBeNull();
  });

  it("absorbent: a circle with a withdrawn charge is not used", () => {
    const product = ready.workstation?.fitted.absorbent[0]?.product.name ?? "";
    expect(withdraw("absorbent", product)?.wouldBe.judgement.state).toBe("do-not-use");
  });

  it("touches nothing where nothing of it is fitted", () => {
    expect(
      withoutParts({ ...ready, workstation: null }, { what: "withdrawn", part: "vaporizer", named: "V" }),
    ).toBeNull();
  });
});
