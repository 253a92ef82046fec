import type { Occupancy } from "@/lib/domain/evidence";
import type { Judgement } from "@/lib/domain/judgement";
import { type MorningCounts, outlookOf, type RoomOutlook } from "@/lib/domain/morning-outlook";
import { naturalOrder } from "@/lib/domain/natural-order";
import { listed, numeral, upperFirst } from "@/lib/domain/wording";
import { type Instant, type Timestamp, timeIn } from "@/lib/units/time";

/** One room of the board, as far as the answer needs it. */
export interface MorningRoom {
  readonly name: string;
  readonly state: Judgement["state"];
  readonly occupancy: Occupancy;
  readonly marks: { readonly equipment: unknown; readonly provider: unknown };
  /** Every limit is allowed by somebody who may. */
  readonly limitsAllowed: boolean;
  readonly readyForList: boolean;
  readonly whenInUse: Judgement["whenInUse"];
  readonly firstCase: Timestamp | null;
  readonly decideBy: Timestamp | null;
  /** Open work, with who has claimed it and since when. */
  readonly work: readonly {
    readonly minutes: number;
    readonly person: string | null;
    readonly claimedAt: Timestamp | null;
  }[];
}

export type Tone = "plain" | "strong" | "limit" | "stop";

export interface SentencePart {
  readonly text: string;
  readonly tone: Tone;
}

export interface AnswerSentence {
  readonly parts: readonly SentencePart[];
  readonly counts: MorningCounts;
}

/** The answer to "which rooms can start, and if not, what happens": one short paragraph. Closed rooms are named last and never counted. */
export function answerSentence(rooms: readonly MorningRoom[], now: Instant, timeZone: string): AnswerSentence {
  const outlooks = [...rooms]
    .sort((left, right) => naturalOrder(left.name, right.name))
    .map((room) => outlookOf(room, now));
  const counts = countsOf(outlooks);
  const of = (kind: RoomOutlook["kind"]) => outlooks.filter((outlook) => outlook.kind === kind);
  const parts: (SentencePart | null)[] = [
    part("stop", actNow(of("act-now"))),
    part("strong", readyText(counts)),
    part("plain", owingText(counts)),
    part("limit", inTimeText(counts)),
    part("plain", toCheckText(of("to-check"))),
    part("stop", joined([lateText(of("late")), decisionText(of("decision"), now, timeZone)])),
    part("plain", joined([outText(of("out-of-service")), closedText(counts)], ", ")),
  ];
  return { parts: parts.filter((one) => one !== null), counts };
}

/** Cannot start as it is, or needs somebody at once: what a board shows on top. */
export function needsAttention(room: MorningRoom): boolean {
  if (room.occupancy.state === "closed") return false;
  if (room.occupancy.state === "in-use") return room.whenInUse === "act-now";
  return !(room.state === "ready" || (room.state === "ready-limited" && room.limitsAllowed && room.readyForList));
}

function countsOf(outlooks: readonly RoomOutlook[]): MorningCounts {
  const count = (kind: RoomOutlook["kind"]) => outlooks.filter((outlook) => outlook.kind === kind).length;
  const closed = count("closed");
  return {
    running: outlooks.length - closed,
    ready: count("ready") + count("act-now"),
    owingProvider: outlooks.filter(({ kind, owesProvider }) => kind === "ready" && owesProvider).length,
    inTime: count("in-time"),
    toCheck: count("to-check"),
    late: count("late"),
    decision: count("decision"),
    outOfService: count("out-of-service"),
    closed,
  };
}

const part = (tone: Tone, text: string): SentencePart | null => (text === "" ? null : { tone, text });

/** Clauses of one sentence, with its full stop. */
function joined(clauses: readonly string[], by = "; "): string {
  const said = clauses.filter((clause) => clause !== "");
  return said.length === 0 ? "" : `${upperFirst(said.join(by))}.`;
}

const WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
const inWords = (count: number): string => WORDS[count] ?? numeral(count);
const plural = (count: number, one: string, more: string): string => (count === 1 ? one : more);

function actNow(outlooks: readonly RoomOutlook[]): string {
  return outlooks.length === 0 ? "" : `Act now in ${listed(names(outlooks), 5)}: a supply fails under a case.`;
}

function readyText({ running, ready, owingProvider }: MorningCounts): string {
  const end = owingProvider > 0 ? "," : ".";
  if (running === 0) return "No room runs today.";
  if (ready === 0)
    return running === 1 ? "The one room is not ready yet." : `None of ${numeral(running)} rooms is ready yet.`;
  if (ready === running)
    return running === 1 ? `The one room is ready${end}` : `All ${numeral(running)} rooms are ready${end}`;
  return `${numeral(ready)} of ${numeral(running)} rooms ${plural(ready, "is", "are")} ready${end}`;
}

function owingText({ ready, owingProvider }: MorningCounts): string {
  if (owingProvider === 0) return "";
  if (ready === 1) return "and still owes the provider’s check.";
  if (owingProvider === ready) return "and all still owe the provider’s check.";
  return `${numeral(owingProvider)} still ${plural(owingProvider, "owes", "owe")} the provider’s check.`;
}

function inTimeText({ ready, inTime }: MorningCounts): string {
  if (inTime === 0) return "";
  const more = ready === 0 ? "" : " more";
  return `${upperFirst(inWords(inTime))}${more} will be before ${plural(inTime, "its", "their")} first case.`;
}

const MOST_NAMED = 3;
const names = (outlooks: readonly RoomOutlook[]): string[] => outlooks.map(({ name }) => name);
/** Few rooms are named, many are counted. */
const who = (outlooks: readonly RoomOutlook[]): string =>
  outlooks.length <= MOST_NAMED ? listed(names(outlooks)) : inWords(outlooks.length);

function toCheckText(outlooks: readonly RoomOutlook[]): string {
  return outlooks.length === 0
    ? ""
    : joined([`${who(outlooks)} ${plural(outlooks.length, "is", "are")} still to check`]);
}

function lateText(outlooks: readonly RoomOutlook[]): string {
  if (outlooks.length === 0) return "";
  if (outlooks.length > MOST_NAMED) {
    const most = outlooks.reduce((worst, outlook) => (outlook.lateMinutes > worst.lateMinutes ? outlook : worst));
    return `${inWords(outlooks.length)} will be late, ${most.name} by ${numeral(most.lateMinutes)} min`;
  }
  return outlooks.map(({ name, lateMinutes }) => `${name} will be ${numeral(lateMinutes)} min late`).join("; ");
}

/** Each room with its own time: a later decision must not press as the earliest does. */
function decisionText(outlooks: readonly RoomOutlook[], now: Instant, timeZone: string): string {
  const byTime = new Map<string, RoomOutlook[]>();
  const soonest = [...outlooks].sort((left, right) => (left.decideBy ?? 0) - (right.decideBy ?? 0));
  for (const outlook of soonest) {
    const when = whenText(outlook.decideBy, now, timeZone);
    byTime.set(when, [...(byTime.get(when) ?? []), outlook]);
  }
  const [first, ...rest] = [...byTime];
  if (first === undefined) return "";
  const [when, rooms] = first;
  const clause = `${who(rooms)} ${plural(rooms.length, "needs", "need")} a decision${when}`;
  return [clause, ...rest.map(([later, others]) => `${who(others)}${later}`)].join(", ");
}

function whenText(decideBy: Instant | null, now: Instant, timeZone: string): string {
  if (decideBy === null) return "";
  return decideBy <= now ? " now" : ` by ${timeIn(timeZone, decideBy)}`;
}

function outText(outlooks: readonly RoomOutlook[]): string {
  return outlooks.length === 0 ? "" : `${who(outlooks)} ${plural(outlooks.length, "is", "are")} out of service`;
}

const closedText = ({ closed }: MorningCounts): string =>
  closed === 0 ? "" : `${inWords(closed)} ${plural(closed, "is", "are")} closed`;
