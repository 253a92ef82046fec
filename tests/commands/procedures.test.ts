import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { approveProcedure } from "@/lib/commands/approve-procedure";
import { declineProcedure } from "@/lib/commands/decline-procedure";
import { draftProcedure, dropProcedure, proposeProcedure, saveProcedure } from "@/lib/commands/propose-procedure";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { swapCylinder } from "@/lib/commands/swap-cylinder";
import type { OwnItem, ProcedureItem } from "@/lib/domain/procedure/model";
import { readProcedures } from "@/lib/queries/procedures";
import { readRoom } from "@/lib/queries/room";
import type { ProceduresView } from "@/lib/schemas/procedure";
import { expectRefused } from "@/tests/support/refusals";
import {
  answerRest,
  beginCheck,
  checkSeen,
  checkWhole,
  given,
  question,
  readingOf,
  roomNamed,
  workstationIn,
} from "@/tests/support/room-work";
import { goodAnswer, type SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let author: Actor;
let second: Actor;
let rosa: Actor;
let provider: Actor;

beforeAll(async () => {
  department = await widerDepartment();
  author = await department.person("Mona Vale", ["manager"]);
  second = await department.person("Ines Roth", ["manager"]);
  rosa = await department.person("Rosa Osei", ["technician"]);
  provider = await department.person("Karl Brandt", ["provider"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

type Kind = ProceduresView["kinds"][number]["kind"];
async function kindNow(kind: Kind) {
  const view = await readProcedures(author, readingOf(department));
  const found = view.kinds.find((one) => one.kind === kind);
  if (!found) throw new Error(`no ${kind}`);
  return { ...found, today: view.today };
}

const CLOCK: OwnItem = {
  item: "own-room-wall-clock",
  title: "Look at the wall clock",
  how: "It runs and shows the right time.",
  why: "Times in the record are read from it.",
  whenItFails: "Tell the charge provider.",
  answer: { kind: "pass", yes: "Right", no: "Wrong or stopped" },
  by: "either",
  applies: {},
  failing: "due",
};

/** The draft of a kind with its items changed, saved, proposed for today and approved. */
async function inForceToday(kind: Kind, from: string | null, change: (items: ProcedureItem[]) => ProcedureItem[]) {
  const { draftId, revision } = await department.must(draftProcedure, { kind, from }, author);
  const { draft, today } = await kindNow(kind);
  if (!draft) throw new Error("no draft");
  const text = { ...draft.text, items: change(draft.text.items as ProcedureItem[]) };
  const saved = await department.must(saveProcedure, { draftId, revision, text } as never, author);
  const seen = { draftId, revision: saved.revision };
  await department.must(proposeProcedure, { ...seen, inForceOn: today, reason: "Agreed on Monday." }, author);
  return department.must(approveProcedure, seen, second);
}

describe("a draft of the next version", () => {
  it("is one for each kind, saved over the revision seen, and of two editors one wins and the other is told", async () => {
    const { draftId } = await department.must(draftProcedure, { kind: "close-out", from: null }, author);
    await expectRefused(department, draftProcedure, { kind: "close-out", from: null }, second, {
      refusal: "taken",
      message: /Mona Vale has a draft/,
    });
    const { draft } = await kindNow("close-out");
    const named = (name: string) => ({ draftId, revision: 0, text: { ...draft?.text, name } }) as never;
    await department.must(saveProcedure, named("Evening round"), author);
    await expectRefused(department, saveProcedure, named("Last round"), second, {
      refusal: "moved-on",
      message: /Mona Vale saved this draft/,
      field: "revision",
    });
    expect((await kindNow("close-out")).draft).toMatchObject({ revision: 1, text: { name: "Evening round" } });
    await department.must(dropProcedure, { draftId, revision: 1 }, author);
    expect((await kindNow("close-out")).draft).toBeNull();
  });

  it("is approved by nobody who wrote in it, goes back to writing whole when declined, and holds from its day", async () => {
    const from = "each-case-iso";
    const { draftId, revision } = await department.must(draftProcedure, { kind: "each-case", from }, author);
    const seen = { draftId, revision };
    const propose = (inForceOn: string) => ({ ...seen, inForceOn, reason: "The list of our guideline." }) as const;
    await expectRefused(department, proposeProcedure, propose("2026-11-20"), author, {
      refusal: "invalid",
      message: /is past/,
      field: "inForceOn",
    });
    await department.must(proposeProcedure, propose("2026-11-26"), author);
    await expectRefused(department, approveProcedure, seen, author, {
      refusal: "not-allowed",
      message: /You wrote in this draft/,
      field: "draftId",
    });
    await department.must(declineProcedure, { draftId, reason: "Not before Thursday." }, second);
    const declined = (await kindNow("each-case")).draft;
    expect(declined).toMatchObject({ state: "draft", declinedBecause: "Not before Thursday." });
    expect(declined?.added).toContain("Two-bag test");
    await department.must(proposeProcedure, propose("2026-11-26"), author);
    const { version, inForceFrom } = await department.must(approveProcedure, seen, second);
    expect([version, inForceFrom]).toEqual([2, "2026-11-26T09:00:00.000Z"]);
    const { inForce, waiting } = await kindNow("each-case");
    expect([inForce?.version, waiting?.version]).toEqual([1, 2]);
    await expectRefused(department, approveProcedure, seen, second, {
      refusal: "already-done",
      message: /it is approved/,
      field: "draftId",
    });
  });
});

describe("a version that comes into force in the middle of a check", () => {
  it("leaves the check its own questions; what the new one asks beyond it is told, and owed with the next check", async () => {
    const check = await beginCheck(department, "OR 1", rosa);
    expect(check.procedure?.version).toBe(1);
    department.clock.add(5);
    await inForceToday("daily", null, (items) => [...items.filter(({ item }) => item !== "apl"), CLOCK]);
    expect((await kindNow("daily")).inForce?.version).toBe(2);
    const apl = question(await checkSeen(department, check.id, rosa), "apl");
    await department.must(
      recordAnswers,
      { checkId: check.id, answers: [given(apl, { kind: "pass", passed: true })] },
      rosa,
    );
    const { version, items } = await answerRest(department, check.id, rosa);
    expect(items.some(({ item }) => item === CLOCK.item)).toBe(false);
    await department.must(signCheck, { checkId: check.id, seenVersion: version }, rosa);
    expect((await roomNamed(department, "OR 1")).state).toBe("ready");
    const room = await readRoom(author, (await roomNamed(department, "OR 1")).roomId, readingOf(department));
    expect(JSON.stringify(room)).toContain("Checked before version 2, which also asks: wall clock");
    const next = await beginCheck(department, "OR 2", rosa);
    expect(next.procedure?.version).toBe(2);
    expect(next.items.some(({ item }) => item === "apl")).toBe(false);
    expect(question(next, CLOCK.item).title).toBe("Look at the wall clock");
  });

  it("a question of the site's own limits nothing when the site chose so", async () => {
    const check = await checkWhole(department, "OR 2", rosa, (item) =>
      item.item === CLOCK.item ? { kind: "pass", passed: false } : goodAnswer(item),
    );
    expect(check.recorded.find(({ item }) => item === CLOCK.item)?.verdict).toBe("fail");
    expect((await roomNamed(department, "OR 2")).state).toBe("ready");
    const room = await readRoom(author, (await roomNamed(department, "OR 2")).roomId, readingOf(department));
    expect(JSON.stringify(room)).toContain("Wall clock failed");
  });
});

describe("who may answer, and what the same user may leave out", () => {
  it("a technician does not answer for the provider, who answers it", async () => {
    const workstationId = await workstationIn(department, "OR 1");
    const { checkId } = await department.must(startCheck, { workstationId, kind: "each-case" }, rosa);
    const asked = question(await checkSeen(department, checkId, rosa), "settings-confirmed");
    const input = { checkId, answers: [given(asked, { kind: "pass", passed: true } as const)] };
    await expectRefused(department, recordAnswers, input, rosa, {
      refusal: "not-allowed",
      message: /provider who signs answers this/,
      field: "answers.0.item",
    });
    await department.must(recordAnswers, input, provider);
  });

  it("steps 1 to 9 are left out for the same user on a successive case, and asked again after anything happened", async () => {
    const workstationId = await workstationIn(department, "OR 3");
    const begin = async (who: Actor, whole = false) => {
      department.clock.add(1);
      const { checkId } = await department.must(startCheck, { workstationId, kind: "each-case", whole }, who);
      return checkSeen(department, checkId, who);
    };
    const sign = async (checkId: string, who: Actor) => {
      const { version } = await answerRest(department, checkId, who);
      await department.must(signCheck, { checkId, seenVersion: version }, who);
    };
    department.clock.add(3 * 24 * 60);
    await inForceToday("each-case", "each-case-fda-1993", (items) => items);
    const first = await begin(provider);
    expect(first.shortened).toBe(false);
    await sign(first.id, provider);
    const next = await begin(provider);
    expect(next.shortened).toBe(true);
    expect(next.items.length).toBeLessThan(first.items.length);
    expect(next.items.some(({ item }) => item === "cylinder-gauge")).toBe(false);
    expect(next.items.some(({ item }) => item === "breathing-leak")).toBe(true);
    await sign(next.id, provider);
    const other = await department.person("Lena Sander", ["provider"]);
    expect((await begin(other)).shortened).toBe(false);
    await department.must(
      swapCylinder,
      { workstationId, position: "1", cylinder: { serial: "OX-50003" }, takenOff: "in-use" },
      rosa,
    );
    expect((await begin(provider)).shortened).toBe(false);
  });
});

describe("every kind of check is begun and signed", () => {
  it.each(["first-user", "close-out", "provider-change"] as const)("%s", async (kind) => {
    const who = kind === "provider-change" ? provider : rosa;
    const workstationId = await workstationIn(department, "OR 1");
    const { checkId } = await department.must(startCheck, { workstationId, kind }, who);
    const { version, items } = await answerRest(department, checkId, who);
    expect(items.length).toBeGreaterThan(2);
    await department.must(signCheck, { checkId, seenVersion: version }, who);
    expect((await checkSeen(department, checkId, who)).signatures).toHaveLength(1);
  });
});
