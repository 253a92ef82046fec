import { describe, expect, it } from "vitest";
import { isPressing, roomStanding } from "@/app/_parts/room-standing";
import { rowsSayTemplate, templateText } from "@/app/(board)/by-template";
import { changesByClock, workTitle } from "@/app/(board)/row-facts";
import { boardSections } from "@/app/(board)/sections";
import { instantOf } from "@/lib/units/time";
import { aRow, local, ZONE } from "./board-rows";

const rooms = [
  aRow({ roomId: "1", name: "OR 10" }),
  aRow({ roomId: "2", name: "OR 2" }),
  aRow({ roomId: "3", name: "OR 3", state: "to-check" }),
  aRow({ roomId: "4", name: "OR 4", state: "out-of-service" }),
  aRow({ roomId: "5", name: "OR 5", state: "do-not-use" }),
  aRow({ roomId: "6", name: "OR 6", occupancy: { state: "closed", since: local("05:00") }, state: "do-not-use" }),
  aRow({
    roomId: "7",
    name: "OR 7",
    occupancy: { state: "in-use", since: local("05:00"), confirmed: true },
    state: "do-not-use",
    whenInUse: "after-this-case",
  }),
  aRow({
    roomId: "8",
    name: "OR 8",
    occupancy: { state: "in-use", since: local("05:00"), confirmed: true },
    state: "do-not-use",
    whenInUse: "act-now",
  }),
  aRow({ roomId: "9", name: "OR 9", state: "ready-limited", limits: ["no-nitrous-oxide"], limitsAllowed: false }),
  aRow({ roomId: "0", name: "OR 11", state: "ready-limited", limits: ["no-nitrous-oxide"] }),
];

describe("the order of the board", () => {
  it("puts what cannot start on top by consequence, then what is to check, then the rest by name, closed rooms last", () => {
    const sections = boardSections(rooms, true).map(({ id, rooms: inside }) => [id, inside.map(({ name }) => name)]);
    expect(sections).toEqual([
      ["attention", ["OR 8", "OR 5", "OR 9", "OR 4"]],
      ["to-check", ["OR 3"]],
      ["ready", ["OR 2", "OR 7", "OR 10", "OR 11"]],
      ["closed", ["OR 6"]],
    ]);
  });

  it("sorts by no state at all while it is not live", () => {
    const sections = boardSections(rooms, false);
    expect(sections.map(({ id }) => id)).toEqual(["last-known"]);
    expect(sections[0]?.rooms).toHaveLength(rooms.length);
  });
});

describe("how a room stands, in words", () => {
  const said = (row: ReturnType<typeof aRow>) => {
    const { shape, word, notes } = roomStanding(row, ZONE);
    return { shape, word, notes: notes.map(({ text }) => text) };
  };

  it.each([
    [aRow(), { shape: "seated", word: "Ready", notes: [] }],
    [aRow({ state: "do-not-use" }), { shape: "barred", word: "Do not use", notes: [] }],
    [aRow({ state: "to-check" }), { shape: "open-pins", word: "To check", notes: [] }],
    [aRow({ state: "out-of-service" }), { shape: "struck", word: "Out of service", notes: [] }],
    [
      aRow({ state: "ready-limited", limits: ["no-nitrous-oxide"], limitsAllowed: false, readyForList: false }),
      {
        shape: "half-seated",
        word: "Ready, limited",
        notes: ["no nitrous oxide", "not allowed yet", "not for this list"],
      },
    ],
  ])("%#", (row, words) => expect(said(row)).toEqual(words));

  it("is in use whatever was found meanwhile, and says when that asks for hands", () => {
    const inUse = { occupancy: { state: "in-use", since: local("05:30"), confirmed: true } } as const;
    expect(said(aRow({ ...inUse, state: "do-not-use", whenInUse: "after-this-case" }))).toEqual({
      shape: "in-use",
      word: "In use since 05:30",
      notes: ["after this case: do not use"],
    });
    expect(said(aRow({ ...inUse, state: "do-not-use", whenInUse: "act-now" })).notes).toEqual(["act now"]);
  });

  it("presses for a decision where something stops the room, else only when its time is near", () => {
    const decideBy = local("07:05");
    const early = instantOf(local("06:00"));
    expect(isPressing(aRow({ state: "do-not-use", decideBy }), early)).toBe(true);
    expect(isPressing(aRow({ state: "to-check", decideBy }), early)).toBe(false);
    expect(isPressing(aRow({ state: "to-check", decideBy }), instantOf(local("06:36")))).toBe(true);
    expect(isPressing(aRow({ state: "do-not-use" }), early)).toBe(false);
  });
});

describe("good until", () => {
  const until = local("12:00");

  it("is shown for a ready room whose state ends by the clock before its list does", () => {
    expect(changesByClock(aRow({ goodUntil: until }))).toBe(until);
  });

  it.each([
    ["the list ends first", aRow({ goodUntil: local("15:30") })],
    ["there is no list", aRow({ goodUntil: until, listEnd: null })],
    ["the room is not ready", aRow({ goodUntil: until, state: "to-check" })],
    [
      "only the owed provider's check changes its words",
      aRow({ goodUntil: local("07:15"), marks: { equipment: null, provider: null } }),
    ],
  ])("is left out when %s", (_, row) => expect(changesByClock(row)).toBeNull());
});

describe("the work under a reason", () => {
  const work = (title: string) => [{ taskKey: "k", title, minutes: 10, person: null, claimedAt: null }];

  it("is named, unless the reason above says the same", () => {
    const headline = "Nitrous oxide pipeline 38 psi";
    expect(workTitle(aRow({ headline, work: work("Swap oxygen, yoke 1 (E)") }))).toBe("Swap oxygen, yoke 1 (E)");
    expect(workTitle(aRow({ headline, work: work(headline) }))).toBeNull();
    expect(workTitle(aRow({ headline, work: work("Decide: nitrous oxide pipeline 38 psi") }))).toBeNull();
  });
});

describe("rooms that run by the weekly template", () => {
  const some = (count: number, listFrom: "day" | "week") =>
    Array.from({ length: count }, (_, index) => aRow({ name: `${listFrom} ${index + 1}`, listFrom }));

  it("are none when each has a list", () => expect(templateText(some(3, "day"))).toBeNull());

  it("are named where they are few, and counted where they are many, with a word in each row", () => {
    expect(templateText([...some(1, "week"), ...some(3, "day")])).toBe("week 1 runs by the weekly template.");
    expect(templateText([...some(3, "week"), ...some(3, "day")])).toBe(
      "week 1, week 2 and week 3 run by the weekly template.",
    );
    const many = [...some(9, "week"), ...some(3, "day")];
    expect(templateText(many)).toBe("9 rooms run by the weekly template.");
    expect(rowsSayTemplate(many)).toBe(true);
  });

  it("are all on a day without any list, which is said once and not in each row; closed rooms do not count", () => {
    const closed = aRow({ listFrom: "day", occupancy: { state: "closed", since: local("05:00") } });
    const rooms = [...some(24, "week"), closed];
    expect(templateText(rooms)).toBe("No list was entered for today: every room runs by the weekly template.");
    expect(rowsSayTemplate(rooms)).toBe(false);
  });
});
