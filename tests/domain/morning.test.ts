import { describe, expect, it } from "vitest";
import { answerSentence, type MorningRoom, needsAttention } from "@/lib/domain/morning";
import { instantOf } from "@/lib/units/time";
import { moment } from "@/tests/support/evidence-changes";

const ZONE = "America/Chicago";
const NOW = "06:10";

function room(name: string, more: Partial<MorningRoom> = {}): MorningRoom {
  return {
    name,
    state: "ready",
    occupancy: { state: "idle" },
    marks: { equipment: {}, provider: {} },
    limitsAllowed: true,
    readyForList: true,
    whenInUse: null,
    firstCase: moment("07:15"),
    decideBy: null,
    work: [],
    ...more,
  };
}
const many = (count: number, more: Partial<MorningRoom> = {}, prefix = "R") =>
  Array.from({ length: count }, (_, place) => room(`${prefix}${place + 1}`, more));
const owing: Partial<MorningRoom> = { marks: { equipment: {}, provider: null } };
const toCheck: Partial<MorningRoom> = {
  state: "to-check",
  readyForList: false,
  decideBy: moment("06:50"),
  marks: { equipment: null, provider: null },
};
const stopped: Partial<MorningRoom> = { ...toCheck, state: "do-not-use" };
const claimed = (minutes: number, since = "06:05") => [{ minutes, person: "somebody", claimedAt: moment(since) }];
const inUse: Partial<MorningRoom> = { occupancy: { state: "in-use", since: moment("03:50"), confirmed: true } };
const closed: Partial<MorningRoom> = { occupancy: { state: "closed", since: moment("05:00") } };
const out: Partial<MorningRoom> = { state: "out-of-service", readyForList: false };

const told = (...rooms: MorningRoom[]) => answerSentence(rooms, instantOf(moment(NOW)), ZONE);
const sentence = (...rooms: MorningRoom[]) =>
  told(...rooms)
    .parts.map(({ text }) => text)
    .join(" ");

describe("the answer as a sentence", () => {
  it("says the whole morning", () => {
    const morning = [
      ...many(11),
      ...many(6, owing, "P"),
      room("B1", { ...toCheck, work: claimed(15) }),
      room("A3", { ...toCheck, work: claimed(12) }),
      room("C2", { ...stopped, firstCase: moment("07:03"), work: claimed(70) }),
      room("D4", stopped),
      room("D1", out),
      ...many(2, closed, "Z"),
    ];
    expect(sentence(...morning)).toBe(
      "17 of 22 rooms are ready, 6 still owe the provider’s check. Two more will be before their first case. C2 will be 12 min late; D4 needs a decision by 06:50. D1 is out of service, two are closed.",
    );
    expect(told(...morning).parts.map(({ tone }) => tone)).toEqual(["strong", "plain", "limit", "stop", "plain"]);
    expect(told(...morning).counts).toEqual({
      running: 22,
      ready: 17,
      owingProvider: 6,
      inTime: 2,
      toCheck: 0,
      late: 1,
      decision: 1,
      outOfService: 1,
      closed: 2,
    });
  });

  it.each([
    {
      what: "nobody has looked yet",
      rooms: many(24, toCheck),
      says: "None of 24 rooms is ready yet. 24 are still to check.",
    },
    {
      what: "one room, unchecked",
      rooms: [room("A1", toCheck)],
      says: "The one room is not ready yet. A1 is still to check.",
    },
    { what: "one room, ready", rooms: [room("A1")], says: "The one room is ready." },
    {
      what: "one room, the provider's check owed",
      rooms: [room("A1", owing)],
      says: "The one room is ready, and still owes the provider’s check.",
    },
    { what: "all ready", rooms: many(9), says: "All 9 rooms are ready." },
    {
      what: "all ready, all owing",
      rooms: many(3, owing),
      says: "All 3 rooms are ready, and all still owe the provider’s check.",
    },
    {
      what: "all ready, one owing",
      rooms: [...many(3), room("A1", owing)],
      says: "All 4 rooms are ready, 1 still owes the provider’s check.",
    },
    {
      what: "one of two ready",
      rooms: [room("A1"), room("A2", toCheck)],
      says: "1 of 2 rooms is ready. A2 is still to check.",
    },
    {
      what: "one of two ready, owing",
      rooms: [room("A1", owing), room("A2", toCheck)],
      says: "1 of 2 rooms is ready, and still owes the provider’s check. A2 is still to check.",
    },
    {
      what: "three to check, in the order of their names",
      rooms: [room("B10", toCheck), room("B2", toCheck), room("A1"), room("B1", toCheck)],
      says: "1 of 4 rooms is ready. B1, B2 and B10 are still to check.",
    },
    {
      what: "the first on its way",
      rooms: [room("A1", { ...toCheck, work: claimed(10) })],
      says: "The one room is not ready yet. One will be before its first case.",
    },
    { what: "nothing runs", rooms: many(2, closed), says: "No room runs today. Two are closed." },
    { what: "no rooms at all", rooms: [], says: "No room runs today." },
    {
      what: "many late",
      rooms: many(5, {
        ...toCheck,
        firstCase: moment("06:12"),
        work: [{ minutes: 15, person: null, claimedAt: null }],
      }),
      says: "None of 5 rooms is ready yet. Five will be late, R1 by 13 min.",
    },
    {
      what: "a room in use counts as ready and owes nothing",
      rooms: [room("A1", { ...inUse, ...owing }), room("A2")],
      says: "All 2 rooms are ready.",
    },
  ])("$what", ({ rooms, says }) => {
    expect(sentence(...rooms)).toBe(says);
  });

  it("says first where somebody must act now", () => {
    const failing = room("C3", { ...inUse, state: "do-not-use", readyForList: false, whenInUse: "act-now" });
    expect(told(failing, room("A1")).parts[0]).toEqual({
      tone: "stop",
      text: "Act now in C3: a supply fails under a case.",
    });
  });

  it("calls a limited room ready only when the limit is allowed and fits the list", () => {
    const limited: Partial<MorningRoom> = { state: "ready-limited" };
    expect(sentence(room("A1", limited))).toBe("The one room is ready.");
    expect(sentence(room("A1", { ...limited, limitsAllowed: false }))).toBe(
      "The one room is not ready yet. A1 needs a decision by 07:15.",
    );
    expect(sentence(room("A1", { ...limited, readyForList: false }))).toBe(
      "The one room is not ready yet. A1 needs a decision by 07:15.",
    );
  });

  it("says a decision is needed now when its time has come, and each of several with its own time", () => {
    expect(sentence(room("A1", { ...stopped, decideBy: moment("06:10") }))).toContain("A1 needs a decision now.");
    expect(sentence(room("A1", stopped), room("A2", { ...stopped, decideBy: moment("06:35") }))).toContain(
      "A2 needs a decision by 06:35, A1 by 06:50.",
    );
    expect(sentence(room("A1", { ...stopped, decideBy: null, firstCase: null }))).toContain("A1 needs a decision.");
  });

  it("counts what is left of work that has begun, and a minute for work that ran over", () => {
    expect(sentence(room("A1", { ...toCheck, firstCase: moment("06:20"), work: claimed(15, "06:05") }))).toContain(
      "One will be before its first case.",
    );
    expect(sentence(room("A1", { ...toCheck, firstCase: moment("06:19"), work: claimed(15, "06:05") }))).toContain(
      "A1 will be 1 min late.",
    );
    expect(sentence(room("A1", { ...toCheck, firstCase: moment("06:11"), work: claimed(15, "05:00") }))).toContain(
      "One will be before its first case.",
    );
  });

  it("adds up, whatever the rooms are", () => {
    const mixed = [
      ...many(3),
      ...many(2, toCheck, "T"),
      ...many(2, stopped, "S"),
      ...many(2, inUse, "U"),
      ...many(1, out, "O"),
      ...many(4, closed, "C"),
      room("L", { state: "ready-limited", limitsAllowed: false }),
    ];
    const {
      running,
      ready,
      inTime,
      toCheck: unchecked,
      late,
      decision,
      outOfService,
      closed: shut,
    } = told(...mixed).counts;
    expect(ready + inTime + unchecked + late + decision + outOfService).toBe(running);
    expect(running + shut).toBe(mixed.length);
  });

  it("says each part once, so that a list of parts has keys", () => {
    const { parts } = told(
      ...many(5),
      ...many(5, stopped, "S"),
      ...many(5, toCheck, "T"),
      ...many(5, out, "O"),
      ...many(5, closed, "C"),
    );
    expect(new Set(parts.map(({ text }) => text)).size).toBe(parts.length);
  });
});

describe("what stands on top of the board", () => {
  it.each([
    { what: "a ready room", given: room("A1"), needs: false },
    { what: "a room to check", given: room("A1", toCheck), needs: true },
    { what: "a stopped room", given: room("A1", stopped), needs: true },
    { what: "a room out of service", given: room("A1", out), needs: true },
    { what: "an allowed limit that fits", given: room("A1", { state: "ready-limited" }), needs: false },
    {
      what: "a limit that nobody allowed",
      given: room("A1", { state: "ready-limited", limitsAllowed: false }),
      needs: true,
    },
    {
      what: "a limit that does not fit the list",
      given: room("A1", { state: "ready-limited", readyForList: false }),
      needs: true,
    },
    {
      what: "a stop under a case, which waits",
      given: room("A1", { ...stopped, ...inUse, whenInUse: "after-this-case" }),
      needs: false,
    },
    {
      what: "a supply failing under a case",
      given: room("A1", { ...stopped, ...inUse, whenInUse: "act-now" }),
      needs: true,
    },
    { what: "a closed room, whatever its state", given: room("A1", { ...stopped, ...closed }), needs: false },
  ])("$what: $needs", ({ given, needs }) => {
    expect(needsAttention(given)).toBe(needs);
  });
});
