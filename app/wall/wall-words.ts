import { clockText } from "@/app/_parts/format";
import type { MarkShape } from "@/app/_parts/mark-shapes";
import { READINESS_LOOK, type Tone } from "@/app/_parts/readiness-mark";
import { isPressing, roomStanding } from "@/app/_parts/room-standing";
import { READINESS_WORDS } from "@/app/_parts/words";
import type { MorningRoom } from "@/lib/domain/morning";
import type { WallRow } from "@/lib/schemas/wall";
import type { Instant } from "@/lib/units/time";
import type { NoteLines } from "./wall-layout";

export interface WallNote {
  readonly text: string;
  readonly tone: Tone;
}

/** A room as three metres allow: a shape, a word, and the few small words that fit, the most pressing first. */
export interface WallWords {
  readonly shape: MarkShape;
  readonly tone: Tone;
  readonly word: string;
  readonly notes: readonly WallNote[];
}

export function wallWords(row: WallRow, now: Instant, zone: string, lines: NoteLines = 3): WallWords {
  const { shape, tone, word, notes } = roomStanding(row, zone);
  if (row.occupancy.state === "closed") return { shape, tone, word: "Closed", notes: [] };
  if (row.occupancy.state === "in-use") {
    const acts = row.whenInUse === "act-now";
    return { shape, tone: acts ? "stop" : tone, word: acts ? "Act now" : "In use", notes: inUseNotes(row, zone) };
  }
  const said = [...why(row, lines), ...notes, ...idleNotes(row, now, zone)];
  return { shape, tone, word, notes: said.slice(0, lines) };
}

/** What keeps a room from starting. That nobody has checked it is the word's own meaning, and one line is better used. */
function why({ state, reason }: WallRow, lines: NoteLines): WallNote[] {
  if (reason === null || state === "ready" || state === "ready-limited") return [];
  if (state === "to-check" && reason.rule === "not-checked" && lines === 1) return [];
  return [note(reason.inBrief, "plain")];
}

function inUseNotes({ whenInUse, occupancy, reason, state }: WallRow, zone: string): WallNote[] {
  const since = occupancy.state === "in-use" ? [note(`since ${clockText(occupancy.since, zone)}`, "soft")] : [];
  if (whenInUse === "act-now") return [note(reason?.inBrief ?? "a supply fails", "stop"), ...since];
  if (whenInUse === null) return since;
  const { tone } = READINESS_LOOK[state];
  return [...since, note(`then ${READINESS_WORDS[state].toLowerCase()}`, tone)];
}

/** What presses, then who is on it where somebody is or must be, then the first case; that nobody has begun a check is said last. */
function idleNotes(row: WallRow, now: Instant, zone: string): WallNote[] {
  const mayStart = row.state === "ready" || row.state === "ready-limited";
  const firstCase = row.firstCase === null ? [] : [note(`first case ${clockText(row.firstCase, zone)}`, "soft")];
  const decide =
    row.decideBy && isPressing(row, now) ? [note(`decide by ${clockText(row.decideBy, zone)}`, "stop")] : [];
  if (mayStart) return [...decide, ...(row.providerChecked ? [] : [note("provider to check", "due")]), ...firstCase];
  const [begun] = row.work.flatMap(({ inHandSince }) => (inHandSince === null ? [] : [inHandSince])).sort();
  if (begun !== undefined) return [...decide, note(`on it since ${clockText(begun, zone)}`, "plain"), ...firstCase];
  const nobody = row.work.length > 0 ? [note("nobody on it", "plain")] : [];
  return row.state === "to-check" ? [...decide, ...firstCase, ...nobody] : [...decide, ...nobody, ...firstCase];
}

const note = (text: string, tone: Tone): WallNote => ({ text, tone });

/** The wall's rows as the sentence reads them: it asks whether somebody is on the work, never who. */
export function morningRoom(row: WallRow): MorningRoom {
  return {
    ...row,
    marks: {
      equipment: row.equipmentChecked ? "checked" : null,
      provider: row.providerChecked ? "checked" : null,
    },
    work: row.work.map(({ minutes, inHandSince }) => ({
      minutes,
      person: inHandSince === null ? null : "somebody",
      claimedAt: inHandSince,
    })),
  };
}
