import type { BoardRow } from "@/lib/schemas/board";
import { type Instant, instantOf, MINUTE } from "@/lib/units/time";
import { clockText } from "./format";
import type { MarkShape } from "./mark-shapes";
import { READINESS_LOOK, type Tone } from "./readiness-mark";
import { LIMIT_WORDS, READINESS_WORDS } from "./words";

/** How a room stands, in a shape, a word, and the few words that must not be missed beside it. */
export interface RoomStanding {
  shape: MarkShape;
  tone: Tone;
  word: string;
  notes: readonly { text: string; tone: Tone }[];
}

/** What of a room says how it stands; a wall knows no more. */
export type Standing = Pick<
  BoardRow,
  "state" | "occupancy" | "limits" | "limitsAllowed" | "readyForList" | "whenInUse"
>;

type Note = RoomStanding["notes"][number];

export function roomStanding(row: Standing, zone: string): RoomStanding {
  const { occupancy } = row;
  if (occupancy.state === "closed") return { shape: "closed", tone: "soft", word: "Closed today", notes: [] };
  if (occupancy.state === "in-use") {
    return {
      shape: "in-use",
      tone: "plain",
      word: `In use since ${clockText(occupancy.since, zone)}`,
      notes: inUseNotes(row),
    };
  }
  return { ...READINESS_LOOK[row.state], word: READINESS_WORDS[row.state], notes: idleNotes(row) };
}

/** Nothing flips a room with a case in it; what is wrong there says when it asks for hands. */
function inUseNotes(row: Standing): Note[] {
  if (row.whenInUse === "act-now") return [{ text: "act now", tone: "stop" }];
  if (row.whenInUse === "after-this-case") {
    return [
      { text: `after this case: ${READINESS_WORDS[row.state].toLowerCase()}`, tone: READINESS_LOOK[row.state].tone },
    ];
  }
  return [];
}

function idleNotes(row: Standing): Note[] {
  const notes: Note[] = [];
  if (row.state === "ready-limited") {
    const limits = row.limits.map((limit) => LIMIT_WORDS[limit]).join(", ");
    if (limits) notes.push({ text: limits, tone: "limit" });
    if (!row.limitsAllowed) notes.push({ text: "not allowed yet", tone: "limit" });
  }
  const mayStart = row.state === "ready" || row.state === "ready-limited";
  if (mayStart && !row.readyForList) notes.push({ text: "not for this list", tone: "stop" });
  return notes;
}

const SOON = 30 * MINUTE;

/** A decision presses where something stops the room, and everywhere when its time is near. */
export function isPressing(row: Pick<BoardRow, "state" | "decideBy">, now: Instant): boolean {
  if (row.decideBy === null) return false;
  return row.state === "do-not-use" || instantOf(row.decideBy) - now < SOON;
}
