import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Actor, scopeOf } from "@/lib/auth/actor";
import { addChannel, chooseSummaries, removeChannel, testChannel } from "@/lib/commands/channels";
import { claimTask } from "@/lib/commands/claim-task";
import { setDuty } from "@/lib/commands/duty";
import { acknowledgeEscalation, escalateTask, passOnEscalation } from "@/lib/commands/escalations";
import { cannotDoTask } from "@/lib/commands/task-work";
import { escalateDue } from "@/lib/jobs/escalations";
import { summariseDue } from "@/lib/jobs/summaries";
import { readHistory } from "@/lib/queries/history";
import { readMessages } from "@/lib/queries/messages";
import { readTasks } from "@/lib/queries/tasks";
import { dateIn, instant } from "@/lib/units/time";
import { expectRefused } from "@/tests/support/refusals";
import { readingOf } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";
import { widerDepartment } from "@/tests/support/wider-department";

let department: SmallDepartment;
let rosa: Actor;
let charge: Actor;
let manager: Actor;
const SENDER = { serverSecret: "a secret of the tests, long enough for its purpose", mail: true };
const STRANGER = "00000000-0000-4000-8000-00000000abcd";

// 05:30 in Chicago, a Tuesday.
beforeAll(async () => {
  department = await widerDepartment();
  rosa = await department.person("Rosa Osei", ["technician"]);
  charge = await department.person("Nia Hale", ["charge-provider"]);
  manager = await department.person("Ines Falk", ["manager"]);
});
afterAll(() => department.close());
beforeEach(() => department.clock.add(1));

const watching = () => ({ database: department.database, now: () => instant(department.clock.now()) });
const tasks = async () => (await readTasks(rosa, readingOf(department))).tasks;
const checkIn = async (room: string) => {
  const found = (await tasks()).find((task) => task.room?.name === room && task.kind === "check");
  if (!found) throw new Error(`no check in ${room}`);
  return found;
};
const messagesOf = (actor: Actor) => readMessages(actor, readingOf(department), SENDER);
const lastEntry = async () => (await readHistory(manager, { limit: 1 }, readingOf(department))).entries[0];
const deliveries = () =>
  department.database.inScope(scopeOf(manager), (tx) => tx.delivery.findMany({ orderBy: { id: "asc" } }));

describe("somebody is asked by hand", () => {
  it("stands with the task, waits for the one who was asked, and for nobody else", async () => {
    const { key } = await checkIn("OR 1");
    const ask = { key, personId: charge.personId, reason: "no cylinder in any store" };
    await expectRefused(department, escalateTask, { ...ask, personId: rosa.personId }, rosa, {
      refusal: "invalid",
      message: /You are that person/,
      field: "personId",
    });
    await expectRefused(department, escalateTask, { ...ask, personId: STRANGER }, rosa, {
      refusal: "not-found",
      message: /Nobody with this id/,
      field: "personId",
    });
    await expectRefused(department, escalateTask, { ...ask, key: "check:nothing" }, rosa, {
      refusal: "not-found",
      message: /no longer open/,
      field: "key",
    });
    const { escalationId, name } = await department.must(escalateTask, ask, rosa);
    expect(name).toBe("Nia Hale");
    expect((await checkIn("OR 1")).escalation).toMatchObject({ name: "Nia Hale", answeredAt: null });
    await expectRefused(department, escalateTask, ask, manager, {
      refusal: "taken",
      message: /Nia Hale is asked already/,
    });
    await expectRefused(department, acknowledgeEscalation, { escalationId }, rosa, {
      refusal: "not-yours",
      message: /only they can answer/,
    });
    await department.must(acknowledgeEscalation, { escalationId }, charge);
    expect((await checkIn("OR 1")).escalation?.answeredAt).not.toBeNull();
    await expectRefused(department, acknowledgeEscalation, { escalationId }, charge, {
      refusal: "already-done",
      message: /answered this already/,
    });
    expect((await lastEntry())?.text).toBe("Has it: answered what was asked");
  });

  it("is passed on to somebody else, who is asked with the words that go with it", async () => {
    const [open] = (await messagesOf(charge)).escalations;
    const pass = { escalationId: open?.id ?? "", personId: manager.personId, note: "I am in a case" };
    await expectRefused(department, passOnEscalation, { ...pass, personId: charge.personId }, charge, {
      refusal: "invalid",
      message: /Choose somebody else/,
      field: "personId",
    });
    await department.must(passOnEscalation, pass, charge);
    expect((await messagesOf(charge)).escalations[0]).toMatchObject({ outcome: "passed-on" });
    const [next] = (await messagesOf(manager)).escalations;
    expect(next).toMatchObject({ by: "Nia Hale", outcome: null });
    expect(next?.reason).toMatch(/no cylinder in any store\. Nia Hale: I am in a case$/);
    await expectRefused(department, passOnEscalation, pass, charge, { refusal: "moved-on", message: /over already/ });
  });

  it("is over when somebody takes the task", async () => {
    await department.must(claimTask, { key: (await checkIn("OR 1")).key }, rosa);
    await escalateDue(watching());
    expect((await checkIn("OR 1")).escalation).toBeNull();
    expect((await messagesOf(manager)).escalations[0]).toMatchObject({ outcome: "over" });
  });
});

describe("the clock asks", () => {
  it("those first whom a message reaches", async () => {
    await department.must(addChannel, { kind: "mail", to: "nia.first@quillhaven.example" }, charge);
    expect((await messagesOf(charge)).channels).toHaveLength(1);
  });

  it("nobody while there is time, and one person when somebody could not", async () => {
    expect(await escalateDue(watching())).toBe(0);
    const { key } = await checkIn("OR 2");
    await department.must(cannotDoTask, { key, reason: "the room is locked" }, rosa);
    expect(await escalateDue(watching())).toBe(0);
    department.clock.add(5);
    expect(await Promise.all([escalateDue(watching()), escalateDue(watching())])).toContain(1);
    expect((await checkIn("OR 2")).escalation).toMatchObject({ name: "Nia Hale" });
    expect((await messagesOf(charge)).escalations[0]).toMatchObject({
      by: null,
      reason: expect.stringMatching(/^OR 2: .*Rosa Osei could not: the room is locked$/),
    });
  });

  it("the next person when no answer comes in time", async () => {
    department.clock.add(6);
    expect(await escalateDue(watching())).toBe(1);
    expect((await checkIn("OR 2")).escalation).toMatchObject({ name: "Dele Oyelaran" });
    expect((await messagesOf(charge)).escalations[0]).toMatchObject({ outcome: "unanswered" });
  });

  it("whoever is on duty before whoever is not", async () => {
    const kim = await department.person("Kim Vale", ["charge-provider"]);
    const spans = [{ role: "charge-provider", from: "05:00", to: "15:00" }];
    const date = dateIn("America/Chicago", instant(department.clock.now()));
    const duty = { date, personId: kim.personId, spans };
    await department.must(setDuty, setDuty.schema.parse(duty) as never, manager);
    const { key } = await checkIn("OR 3");
    await department.must(cannotDoTask, { key, reason: "no key" }, rosa);
    department.clock.add(6);
    await escalateDue(watching());
    expect((await checkIn("OR 3")).escalation).toMatchObject({ name: "Kim Vale" });
  });
});

describe("the ways by which somebody is reached", () => {
  it("are their own, each address once, and removed with what still waits to go by it", async () => {
    const mail = { kind: "mail", to: "nia@quillhaven.example" } as const;
    const { channelId } = await department.must(addChannel, mail, charge);
    await expectRefused(department, addChannel, mail, charge, {
      refusal: "already-done",
      message: /by this address already/,
      field: "to",
    });
    await expectRefused(department, removeChannel, { channelId }, rosa, {
      refusal: "not-found",
      message: /no such way/,
      field: "channelId",
    });
    const before = (await deliveries()).length;
    await department.must(testChannel, { channelId }, charge);
    expect((await deliveries()).length).toBe(before + 1);
    expect((await messagesOf(charge)).channels.find(({ id }) => id === channelId)).toMatchObject({
      kind: "mail",
      label: "nia@quillhaven.example",
      last: { attempts: 0, sentAt: null },
    });
    await department.must(removeChannel, { channelId }, charge);
    expect(
      (await deliveries()).filter((one) => one.channelId === channelId).every(({ nextAt }) => nextAt === null),
    ).toBe(true);
    expect((await messagesOf(charge)).channels.map(({ label }) => label)).toEqual(["nia.first@quillhaven.example"]);
    expect(JSON.stringify(await readHistory(manager, { limit: 50 }, readingOf(department)))).not.toContain("nia@");
  });

  it("ask for an address that is one", () => {
    for (const wrong of [
      { kind: "mail", to: "nia" },
      { kind: "webhook", to: "ftp://pager.example" },
      { kind: "push", to: "https://push.example/1", p256dh: "%", auth: "x", label: "Phone" },
    ])
      expect(addChannel.schema.safeParse(wrong).success).toBe(false);
  });

  it("give a webhook its own secret, and nobody else's", async () => {
    const one = await department.must(addChannel, { kind: "webhook", to: "https://pager.example/a" }, charge);
    await department.must(addChannel, { kind: "webhook", to: "https://pager.example/b" }, charge);
    const hooks = (await messagesOf(charge)).channels.filter(({ kind }) => kind === "webhook");
    const first = hooks.find(({ id }) => id === one.channelId);
    const second = hooks.find(({ id }) => id !== one.channelId);
    expect(first?.secret).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(first?.secret).not.toBe(second?.secret);
    expect((await messagesOf(charge)).pushKey).toMatch(/^B[A-Za-z0-9_-]{86}$/);
  });
});

describe("summaries", () => {
  it("go by mail, at their time by the facility's clock, once a day however often it is looked", async () => {
    await expectRefused(department, chooseSummaries, { morning: "06:20", week: null }, rosa, {
      refusal: "does-not-fit",
      message: /Add your mail address first/,
      field: "morning",
    });
    await department.must(addChannel, { kind: "mail", to: "ines@quillhaven.example" }, manager);
    await department.must(chooseSummaries, { morning: "06:20", week: "06:30" }, manager);
    department.clock.set("2026-11-24T12:19:00Z");
    expect(await summariseDue(watching())).toBe(0);
    department.clock.set("2026-11-24T12:20:00Z");
    expect(await summariseDue(watching())).toBe(1);
    expect(await summariseDue(watching())).toBe(0);
    const [message] = await department.database.inScope(scopeOf(manager), (tx) =>
      tx.message.findMany({ where: { kind: "summary" } }),
    );
    expect(message?.title).toMatch(/^This morning: 0 of \d+ rooms ready$/);
    expect(message?.body).toMatch(/At 06:20:\n[\s\S]*Rooms that need somebody:\n- OR 1: /);
    expect(message?.body).toContain("Asked of somebody, and open:");
  });

  it("of the week come on Monday, also when the clocks have changed on Sunday", async () => {
    department.clock.set("2027-03-15T11:29:00Z");
    expect(await summariseDue(watching())).toBe(1);
    department.clock.set("2027-03-15T11:31:00Z");
    expect(await summariseDue(watching())).toBe(1);
    const titles = (
      await department.database.inScope(scopeOf(manager), (tx) =>
        tx.message.findMany({ where: { kind: "summary" }, orderBy: { at: "asc" } }),
      )
    ).map(({ title }) => title);
    expect(titles.at(-1)).toBe("Daily checks 2027-03-08 to 2027-03-14: nothing was due");
  });
});
