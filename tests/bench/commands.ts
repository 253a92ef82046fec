import pg from "pg";
import { claimTask, giveBackTask } from "@/lib/commands/claim-task";
import { confirmCheck } from "@/lib/commands/confirm-check";
import { holdWorkstation, liftHold } from "@/lib/commands/hold";
import { recordAnswers } from "@/lib/commands/record-answers";
import { signCheck } from "@/lib/commands/sign-check";
import { startCheck } from "@/lib/commands/start-check";
import { readCheck } from "@/lib/queries/check";
import type { CheckItemView } from "@/lib/schemas/check";
import { goodAnswer } from "@/tests/support/small-department";
import { type BenchDepartment, CLOCK } from "./department";
import { Samples } from "./measure";
import { type Line, milliseconds } from "./report";

/** What one row costs on this database and this disk: everything else is held against it. */
class OneRow {
  readonly samples = new Samples();
  constructor(private readonly client: pg.Client) {}

  commit = (): Promise<unknown> =>
    this.samples.time(() =>
      this.client.query(
        "INSERT INTO bench_row (id, text) VALUES (gen_random_uuid(), 'one row of usual size, no more')",
      ),
    );
}

const STEPS = ["record", "rest", "start", "sign", "confirm", "hold", "lift", "claim", "give back"] as const;
type Times = Record<(typeof STEPS)[number], Samples>;

/** A whole check in each of some rooms, and small commands beside it; before each a commit of one row. */
export async function measureCommands(
  department: BenchDepartment,
  urls: { readonly appUrl: string; readonly ownerUrl: string },
  rooms: number,
): Promise<Line[]> {
  await query(
    urls.ownerUrl,
    "CREATE TABLE bench_row (id uuid PRIMARY KEY, text text NOT NULL); GRANT INSERT ON bench_row TO yokeboard_app",
  );
  const client = new pg.Client({ connectionString: urls.appUrl });
  await client.connect();
  const warm = new OneRow(client);
  const row = new OneRow(client);
  const warmTimes = newTimes();
  const times = newTimes();
  const chosen = department.rooms.slice(0, rooms);
  // The first rooms load code and plans on both sides, and are not counted.
  const warmUp = Math.min(15, Math.floor(rooms / 4));
  try {
    for (const [index, room] of chosen.entries()) {
      const workstationId = room.workstation?.id ?? "";
      // A table that was empty when a plan was made is planned for as if it still were, until it is looked at: autovacuum does that within a minute.
      if (index === warmUp) await query(urls.ownerUrl, "ANALYZE");
      await oneRoom(
        department,
        workstationId,
        ...(index < warmUp ? ([warm, warmTimes] as const) : ([row, times] as const)),
      );
    }
  } finally {
    await client.end();
  }
  return linesOf(row, times);
}

async function oneRoom(department: BenchDepartment, workstationId: string, row: OneRow, times: Times): Promise<void> {
  const { must, technician, provider } = department;
  const timed = async <Value>(step: keyof Times, work: () => Promise<Value>): Promise<Value> => {
    await row.commit();
    return times[step].time(work);
  };
  const key = `check:${workstationId}`;
  await timed("claim", () => must(claimTask, { key }, technician));
  await timed("give back", () => must(giveBackTask, { key }, technician));
  const { reply } = await timed("start", () => must(startCheck, { workstationId, kind: "daily" }, technician));
  const { checkId } = reply;
  const asked = (await viewOf(department, checkId)).items.map(answered);
  await timed("record", () => must(recordAnswers, { checkId, answers: asked.slice(0, 15) }, technician));
  await timed("rest", () => must(recordAnswers, { checkId, answers: asked.slice(15) }, technician));
  const { version } = await viewOf(department, checkId);
  await timed("sign", () => must(signCheck, { checkId, seenVersion: version }, technician));
  const signed = await viewOf(department, checkId);
  await timed("confirm", () => must(confirmCheck, { checkId, seenVersion: signed.version }, provider));
  const held = await timed("hold", () => must(holdWorkstation, { workstationId, reason: "measuring" }, technician));
  await timed("lift", () =>
    must(liftHold, { workstationId, holdId: held.reply.holdId, reason: "measured" }, technician),
  );
}

async function viewOf({ database, technician }: BenchDepartment, checkId: string) {
  const check = await readCheck(technician, checkId, { database, now: CLOCK.now });
  if (!check) throw new Error("the check that was just opened is not there");
  return check;
}

const answered = (question: CheckItemView) => ({
  item: question.item,
  subject: question.subject,
  answer: goodAnswer(question),
});

const newTimes = (): Times => Object.fromEntries(STEPS.map((step) => [step, new Samples()])) as Times;

function linesOf({ samples }: OneRow, times: Times): Line[] {
  const base = samples.p50;
  const line = (what: string, step: keyof Times, atMost?: number): Line => {
    const { p50, p95 } = times[step];
    const value = p50 / base;
    return {
      what,
      value: `p50 ${milliseconds(p50)}, p95 ${milliseconds(p95)}`,
      ratio: { value, to: "a one-row commit" },
      ...(atMost === undefined ? {} : { target: { atMost, unit: "x", reached: value } }),
    };
  };
  return [
    {
      what: "a one-row commit",
      value: `p50 ${milliseconds(base)}, p95 ${milliseconds(samples.p95)}, ${samples.count} times`,
    },
    line("record 15 answers of a check, with all consequences", "record", 12),
    line("record the rest of its answers", "rest"),
    line("start a check", "start"),
    line("sign it", "sign"),
    line("confirm it as provider", "confirm"),
    line("hold a workstation", "hold"),
    line("lift the hold", "lift"),
    line("claim a task", "claim"),
    line("give it back", "give back"),
  ];
}

async function query(url: string, text: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  await client.query(text);
  await client.end();
}
