import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { scopeOf } from "@/lib/auth/actor";
import type { CheckView } from "@/lib/schemas/check";
import { expectFresh } from "@/tests/support/fresh-readiness";
import type { Answer } from "@/tests/support/http";
import { workstationIn } from "@/tests/support/room-work";
import { type Person, type ServedDepartment, servedDepartment } from "./served-department";

/** Enough to fall into every part of a write; many more belong to a longer run. */
const KILLS = 6;
/** Enough on a slow machine; what was killed by then must be whole as well. */
const NO_LONGER_THAN_MS = 150_000;
let served: ServedDepartment;
const writers: { readonly who: Person; readonly checkId: string; readonly bag: { item: string; subject: unknown } }[] =
  [];

beforeAll(async () => {
  served = await servedDepartment();
  for (const [place, room] of ["OR 1", "OR 2", "OR 3"].entries()) {
    const who = await served.person(`writer.${place + 1}`, ["technician"]);
    const workstationId = await workstationIn(served.department, room);
    const { checkId } = JSON.parse((await who.command("start-check", { workstationId, kind: "daily" })).body) as {
      checkId: string;
    };
    const { items } = JSON.parse((await who.get(`/api/v1/checks/${checkId}`)).body) as CheckView;
    const bag = items.find(({ item }) => item === "self-inflating-bag");
    if (!bag) throw new Error("the check asks for no bag");
    writers.push({ who, checkId, bag: { item: bag.item, subject: bag.subject } });
  }
}, 300_000);
afterAll(() => served.close());

describe("a server that is killed in the middle of its writes", () => {
  it("loses nothing that it acknowledged, and does nothing twice", async () => {
    const acknowledged: string[] = [];
    let sent = 0;
    let unanswered = 0;
    let stopped = false;

    /** A careful client: it sends the same request with the same key until somebody answers who has started ("503: still starting"). */
    const untilAnswered = async (send: () => Promise<Answer>): Promise<Answer> => {
      for (;;) {
        const answer = await send().catch(() => null);
        if (answer !== null && answer.status !== 503) return answer;
        unanswered += 1;
        await pause(40);
      }
    };
    const write = async ({ who, checkId, bag }: (typeof writers)[number], name: string) => {
      while (!stopped) {
        sent += 1;
        const note = `${name}-${sent}`;
        const input = { checkId, answers: [{ ...bag, answer: { kind: "pass", passed: true, note } }] };
        const answer = await untilAnswered(() => who.command("record-answers", input, `key-of-${note}`));
        expect(`${note}: ${answer.status} ${answer.body}`).toMatch(/: 200 /);
        acknowledged.push(note);
      }
    };

    const writing = writers.map((writer, place) => write(writer, `writer-${place + 1}`));
    const started = performance.now();
    let kills = 0;
    while (kills < KILLS && performance.now() - started < NO_LONGER_THAN_MS) {
      const before = acknowledged.length;
      while (acknowledged.length < before + 3) await pause(10);
      await pause((kills * 37) % 120);
      await served.server.killHard();
      kills += 1;
      await served.server.restart();
    }
    stopped = true;
    await Promise.all(writing);
    expect(kills).toBeGreaterThanOrEqual(5);
    expect(unanswered).toBeGreaterThan(kills);

    const { department } = served;
    const stored = await department.database.inScope(scopeOf(department.admin), async (tx) => ({
      notes: (await tx.observation.findMany()).map(({ answer }) => (answer as { note?: string }).note),
      receipts: await tx.receipt.count({ where: { key: { contains: "key-of-writer" } } }),
      leaves: await tx.leaf.findMany({ orderBy: { sequence: "asc" } }),
    }));
    expect(acknowledged.length).toBe(sent);
    expect(stored.notes.sort()).toEqual([...acknowledged].sort());
    expect(stored.receipts).toBe(acknowledged.length);
    expect(stored.leaves.map(({ sequence }) => Number(sequence))).toEqual(stored.leaves.map((_, place) => place));
    const recorded = stored.leaves.filter(({ body }) => body.includes('"command":"record-answers"'));
    expect(recorded.length).toBe(acknowledged.length);
    await expectFresh(department);
  }, 240_000);
});
