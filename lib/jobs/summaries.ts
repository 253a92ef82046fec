import { randomUUID } from "node:crypto";
import type { Actor } from "@/lib/auth/actor";
import { answerSentence, needsAttention } from "@/lib/domain/morning";
import { numeral } from "@/lib/domain/wording";
import { readBoardOf } from "@/lib/queries/board";
import { readCompletion } from "@/lib/queries/completion";
import type { Board } from "@/lib/schemas/board";
import { summariesWanted } from "@/lib/storage/channels";
import type { Database, Scope } from "@/lib/storage/client";
import { escalationsOfOpenTasks } from "@/lib/storage/escalations";
import { facilityFrame } from "@/lib/storage/facility-frame";
import { insertMessage } from "@/lib/storage/messages";
import { facilityScopes } from "@/lib/storage/sessions";
import { addDays, dateIn, type Instant, instantOf, type LocalDate, timeIn, weekday } from "@/lib/units/time";

export interface Summarising {
  readonly database: Database;
  readonly now: () => Instant;
}

const MONDAY = 1;

interface Summary {
  readonly title: string;
  readonly body: string;
  readonly path: string;
}

/**
 * Every summary that is due by the facility's own clock and was not told yet: once a day and person, however often this runs, on the days
 * on which clocks change too. Returns how many were told.
 */
export async function summariseDue({ database, now }: Summarising): Promise<number> {
  let told = 0;
  for (const scope of await facilityScopes(database)) told += await summariseIn(database, scope, now());
  return told;
}

async function summariseIn(database: Database, scope: Scope, now: Instant): Promise<number> {
  const { facilityId } = scope;
  const { wanted, facility } = await database.inScope(scope, async (tx) => ({
    wanted: await summariesWanted(tx, facilityId),
    facility: (await facilityFrame(tx, scope)).facility,
  }));
  const today = dateIn(facility.timeZone, now);
  const due = wanted.filter(
    ({ kind, at }) => isTime(at, timeIn(facility.timeZone, now)) && (kind === "morning" || weekday(today) === MONDAY),
  );
  if (due.length === 0) return 0;
  const made = new Map<string, Summary>();
  let told = 0;
  for (const { personId, kind } of due) {
    const summary = made.get(kind) ?? (await summaryOf(kind, database, scope, facility, now));
    made.set(kind, summary);
    const message = {
      id: randomUUID(),
      personId,
      kind: "summary",
      about: `${kind} ${today}`,
      at: now,
      ...summary,
    } as const;
    if (await database.inScope(scope, (tx) => insertMessage(tx, facilityId, message, { kind: "mail" }))) told += 1;
  }
  return told;
}

/** A server that was down in the morning does not tell of it in the evening. Own choice, no source. */
const WITHIN_MINUTES = 120;
const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
const isTime = (at: string, now: string): boolean => {
  const passed = minutesOf(now) - minutesOf(at);
  return passed >= 0 && passed < WITHIN_MINUTES;
};

async function summaryOf(
  kind: "morning" | "week",
  database: Database,
  scope: Scope,
  facility: Actor["facility"],
  now: Instant,
): Promise<Summary> {
  const reading = { database, now: () => now };
  if (kind === "morning") {
    const asked = await database.inScope(scope, (tx) => escalationsOfOpenTasks(tx, scope.facilityId));
    const open = asked.filter(({ outcome }) => outcome === null);
    return morningSummary(
      await readBoardOf(scope, reading),
      open.map(({ reason, answeredAt }) => `${reason}${answeredAt === null ? " (no answer so far)" : ""}`),
    );
  }
  const today = dateIn(facility.timeZone, now);
  const query = { from: addDays(today, -7), to: addDays(today, -1) };
  return weekSummary(await readCompletion(readerOf(scope, facility), query, reading), query);
}

/** Reads as nobody: only the scope of an actor is looked at by a reader. */
const readerOf = ({ organisationId, facilityId }: Scope, facility: Actor["facility"]): Actor => ({
  kind: "person",
  personId: facilityId,
  name: "",
  userId: "",
  roles: [],
  organisationId,
  facility,
  facilities: [],
  sessionId: null,
});

/** The board's answer as a sentence, then each room that needs somebody, and what people were asked. */
export function morningSummary({ rooms, at, facility }: Board, asked: readonly string[]): Summary {
  const now = instantOf(at);
  const sentence = answerSentence(rooms, now, facility.timeZone);
  const problems = rooms.filter(needsAttention).map(({ name, headline }) => `- ${name}: ${headline ?? "to check"}`);
  const { running, ready } = sentence.counts;
  return {
    title: running === 0 ? "This morning: closed" : `This morning: ${ready} of ${running} rooms ready`,
    body: [
      `At ${timeIn(facility.timeZone, now)}:`,
      sentence.parts.map(({ text }) => text).join(" "),
      ...(problems.length > 0 ? ["", "Rooms that need somebody:", ...problems] : []),
      ...(asked.length > 0 ? ["", "Asked of somebody, and open:", ...asked.map((text) => `- ${text}`)] : []),
    ].join("\n"),
    path: "/",
  };
}

export function weekSummary(
  { done, due, percent, rooms }: Awaited<ReturnType<typeof readCompletion>>,
  { from, to }: { readonly from: LocalDate; readonly to: LocalDate },
): Summary {
  const behind = rooms
    .filter((room) => room.done < room.due)
    .map((room) => `- ${room.name}: ${numeral(room.done)} of ${numeral(room.due)}`);
  const share = percent === null ? "nothing was due" : `${percent} % in time`;
  return {
    title: `Daily checks ${from} to ${to}: ${share}`,
    body: [
      `${numeral(done)} of ${numeral(due)} daily checks were done before the first case (closed days and days without a list are not counted).`,
      ...(behind.length > 0 ? ["", "Rooms behind:", ...behind] : []),
    ].join("\n"),
    path: `/reports?from=${from}&to=${to}`,
  };
}
