import { describe, expect, it } from "vitest";
import { addressOf, type BoardFilter, EVERY_ROOM, filterOf, shownRooms, suitesOf } from "@/app/(board)/filter";
import { aRow, local } from "./board-rows";

const ME = "Rosa Osei";
const mine = [{ taskKey: "k", title: "Swap", minutes: 6, person: ME, claimedAt: local("05:51") }];
const rooms = [
  aRow({ roomId: "1", name: "OR 1", suite: "Main", walkingOrder: 5 }),
  aRow({ roomId: "2", name: "OR 2", suite: "Main", walkingOrder: 6, state: "to-check", work: mine }),
  aRow({ roomId: "3", name: "HV 1", suite: "Heart", walkingOrder: 1, state: "do-not-use" }),
  aRow({
    roomId: "4",
    name: "HV 2",
    suite: "Heart",
    walkingOrder: 2,
    state: "to-check",
    whenInUse: "act-now",
    occupancy: { state: "in-use", since: local("05:00"), confirmed: true },
  }),
  aRow({
    roomId: "5",
    name: "HV 3",
    suite: "Heart",
    walkingOrder: 3,
    state: "do-not-use",
    occupancy: { state: "closed", since: local("05:00") },
  }),
];
const shown = (filter: Partial<BoardFilter>, known = true) =>
  shownRooms(rooms, { ...EVERY_ROOM, ...filter }, ME, known).map(({ name }) => name);

describe("which rooms a filter leaves", () => {
  it.each<[Partial<BoardFilter>, string[]]>([
    [{}, ["OR 1", "OR 2", "HV 1", "HV 2", "HV 3"]],
    [{ suite: "Heart" }, ["HV 1", "HV 2", "HV 3"]],
    [{ show: "problems" }, ["HV 1", "HV 2"]],
    [{ show: "to-check" }, ["OR 2"]],
    [{ show: "mine" }, ["OR 2"]],
    [{ suite: "Heart", show: "to-check" }, []],
    [{ find: " hv " }, ["HV 1", "HV 2", "HV 3"]],
  ])("%#", (filter, names) => expect(shown(filter)).toEqual(names));

  it("goes by no state while none is known, but still by suite and name", () => {
    expect(shown({ show: "problems", suite: "Main" }, false)).toEqual(["OR 1", "OR 2"]);
  });

  it("lists the suites as they are walked", () => expect(suitesOf(rooms)).toEqual(["Heart", "Main"]));
});

describe("a filter in the address", () => {
  it.each<BoardFilter>([
    EVERY_ROOM,
    { suite: "Labor & Delivery", show: "to-check", find: "LD 2" },
    { suite: null, show: "mine", find: "" },
  ])("comes back as it went: %#", (filter) => {
    const address = new URL(addressOf(filter), "http://board.example");
    expect(address.pathname).toBe("/");
    expect(filterOf(address.searchParams)).toEqual(filter);
  });

  it("asks for nothing by a word that is not known", () => {
    expect(filterOf(new URLSearchParams("show=everything&suite="))).toEqual(EVERY_ROOM);
  });
});
