import { describe, expect, it } from "vitest";
import type { NoteLines } from "@/app/wall/wall-layout";
import { morningRoom, wallWords } from "@/app/wall/wall-words";
import { answerSentence } from "@/lib/domain/morning";
import { RULES } from "@/lib/domain/rules/all";
import type { BoardRow } from "@/lib/schemas/board";
import { instantOf } from "@/lib/units/time";
import { aRow, local, ZONE } from "./board-rows";
import { aWallRow } from "./wall-rows";

/** Letters that one line of a cell of the fullest wall holds, with some to spare. */
const LONGEST_IN_BRIEF = 21;
const now = instantOf(local("06:00"));
const said = (change: Partial<BoardRow>, lines?: NoteLines) => {
  const { word, notes } = wallWords(aWallRow(change), now, ZONE, lines);
  return [word, ...notes.map(({ text }) => text)];
};
const work = (claimedAt: string | null) => [
  { taskKey: "k", title: "Swap", minutes: 6, person: claimedAt ? "Rosa Osei" : null, claimedAt },
];
const owed = { equipment: { name: "Rosa Osei", at: local("05:41") }, provider: null };

describe("a room's words on the wall", () => {
  it.each<[Partial<BoardRow>, string[]]>([
    [{}, ["Ready", "first case 07:15"]],
    [{ marks: owed }, ["Ready", "provider to check", "first case 07:15"]],
    [{ state: "to-check", work: work(null) }, ["To check", "first case 07:15", "nobody on it"]],
    [{ state: "to-check", work: work(local("05:51")) }, ["To check", "on it since 05:51", "first case 07:15"]],
    [
      { state: "do-not-use", decideBy: local("06:50"), work: work(null) },
      ["Do not use", "decide by 06:50", "nobody on it", "first case 07:15"],
    ],
    [
      { state: "ready-limited", limits: ["no-nitrous-oxide"], limitsAllowed: false },
      ["Ready, limited", "no nitrous oxide", "not allowed yet", "first case 07:15"],
    ],
    [{ occupancy: { state: "closed", since: local("05:00") } }, ["Closed"]],
    [{ occupancy: { state: "in-use", since: local("05:30"), confirmed: true } }, ["In use", "since 05:30"]],
    [
      {
        occupancy: { state: "in-use", since: local("05:30"), confirmed: true },
        state: "do-not-use",
        whenInUse: "act-now",
      },
      ["Act now", "a supply fails", "since 05:30"],
    ],
    [
      {
        occupancy: { state: "in-use", since: local("05:30"), confirmed: true },
        state: "do-not-use",
        whenInUse: "after-this-case",
        headlineRule: "reserve-oxygen-low",
      },
      ["In use", "since 05:30", "then do not use"],
    ],
    [
      { state: "do-not-use", headlineRule: "yoke-leak", decideBy: local("06:50"), work: work(null) },
      ["Do not use", "leak at a yoke", "decide by 06:50", "nobody on it"],
    ],
    [
      { state: "to-check", headlineRule: "not-checked", work: work(null) },
      ["To check", "not checked yet", "first case 07:15", "nobody on it"],
    ],
    [
      { state: "out-of-service", headlineRule: "no-workstation" },
      ["Out of service", "no workstation", "first case 07:15"],
    ],
    [{ headlineRule: "provider-mark-owed", marks: owed }, ["Ready", "provider to check", "first case 07:15"]],
  ])("%#", (change, words) => expect(said(change)).toEqual(words));
});

describe("where one line is all there is", () => {
  it.each<[Partial<BoardRow>, string]>([
    [{ state: "do-not-use", headlineRule: "yoke-leak", decideBy: local("06:50") }, "leak at a yoke"],
    [{ state: "to-check", headlineRule: "recheck-owed" }, "recheck owed"],
    [{ state: "to-check", headlineRule: "not-checked" }, "first case 07:15"],
    [{ state: "to-check", headlineRule: "not-checked", firstCase: null, work: work(null) }, "nobody on it"],
  ])("%#", (change, words) => expect(said(change, 1).slice(1)).toEqual([words]));
});

describe("what a rule is about, in brief", () => {
  it.each(RULES.map(({ id, inBrief }) => [id, inBrief] as const))("%s fits a cell: %s", (_, inBrief) => {
    expect(inBrief).toMatch(/^\S.*\S$/);
    expect(inBrief.length).toBeLessThanOrEqual(LONGEST_IN_BRIEF);
    expect(inBrief).not.toMatch(/\d|[.:]$/);
  });
});

describe("what the wall leaves out", () => {
  it("holds no name and nobody's words", () => {
    const row = aWallRow({ headline: "Held: Rosa heard a hiss", work: work(local("05:51")), marks: owed });
    expect(JSON.stringify(row)).not.toMatch(/Rosa|Osei|Karel|Brandt|hiss/);
  });

  it("and says the same sentence as the board", () => {
    const rooms = [
      aRow({ marks: owed }),
      aRow({ name: "OR 2", state: "do-not-use", work: work(local("05:51")) }),
      aRow({ name: "OR 3", state: "do-not-use", work: work(null), decideBy: local("06:50") }),
      aRow({ name: "OR 4", occupancy: { state: "closed", since: local("05:00") } }),
    ];
    const seen = rooms.map((row) => morningRoom(aWallRow(row)));
    expect(answerSentence(seen, now, ZONE)).toEqual(answerSentence(rooms, now, ZONE));
  });
});
