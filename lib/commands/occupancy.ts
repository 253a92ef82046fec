import { type Context, command } from "@/lib/commands/command";
import { checkDayAt } from "@/lib/domain/check-day";
import type { Occupancy } from "@/lib/domain/evidence";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import type { CommandName } from "@/lib/domain/permission";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { roomReply, roomRequest } from "@/lib/schemas/room";
import type { Tx } from "@/lib/storage/client";
import type { Holder } from "@/lib/storage/evidence";
import { putList } from "@/lib/storage/lists";
import { beginOccupancy, endOccupancy } from "@/lib/storage/occupancy";
import { timestampOf } from "@/lib/units/time";

interface Change {
  readonly name: Extract<CommandName, "start-case" | "end-case" | "close-room" | "open-room">;
  readonly summary: string;
  readonly from: Occupancy["state"];
  readonly wrongState: string;
  /** What the room must be for the change, besides its occupancy. */
  readonly needs?: (holder: Holder) => string | null;
  readonly act: (tx: Tx, roomId: string, context: Context) => Promise<boolean>;
  readonly said: string;
}

/** A room goes between idle, in use and closed; each change is one tap, and each is refused from any other state. */
function occupancyCommand(change: Change) {
  return command({
    name: change.name,
    summary: change.summary,
    schema: roomRequest,
    reply: roomReply,
    locks: ({ roomId }) => ({ rooms: [roomId] }),
    load: async (_tx, input, _context, holders) =>
      (await holders()).find(({ kind, id }) => kind === "room" && id === input.roomId) ?? null,
    decide: (holder) => {
      const room = holder?.evidence.room;
      if (!holder || !room) return refused("not-found", "There is no room with this id in your facility.", "roomId");
      if (room.occupancy.state !== change.from) return refused("moved-on", `${room.name}: ${change.wrongState}`);
      const unmet = change.needs?.(holder) ?? null;
      if (unmet !== null) return refused("not-allowed", unmet);
      return done({ name: room.name });
    },
    apply: async (tx, { name }, input, context) => {
      if (!(await change.act(tx, input.roomId, context)))
        return refused("moved-on", `${name} was changed in the meantime. Nothing was changed.`);
      return {
        reply: { roomId: input.roomId, at: timestampOf(context.now) },
        note: { text: `${change.said} ${name}`, data: { roomId: input.roomId } },
      };
    },
  });
}

const begin = (state: "in-use" | "closed") => (tx: Tx, roomId: string, context: Context) =>
  beginOccupancy(tx, context.begun.scope.facilityId, {
    id: context.newId(),
    roomId,
    state,
    by: context.actor.personId,
    at: context.now,
    today: checkDayAt(checkClock(context.begun), context.now).from,
  });
/** A room that its weekday closes gets a list of its own for today, with no time yet: that wins over the template. */
async function reopen(tx: Tx, roomId: string, context: Context): Promise<boolean> {
  const { scope } = context.begun;
  if (await endOccupancy(tx, scope.facilityId, roomId, "closed", context.now)) return true;
  const { date } = checkDayAt(checkClock(context.begun), context.now);
  const list = { firstCase: null, ends: null, needs: [], setUpMinutes: 0 };
  await putList(tx, scope, roomId, date, list, context.now);
  return true;
}
const end = (state: "in-use" | "closed") => (tx: Tx, roomId: string, context: Context) =>
  endOccupancy(tx, context.begun.scope.facilityId, roomId, state, context.now);

/** A case starts only in a room that may start; nothing here forces anybody to falsify a check, the room simply says what is missing. */
function mayStart({ evidence }: Holder): string | null {
  const { state, reasons } = judge(evidence);
  if (state === "ready" || state === "ready-limited") return null;
  return `${evidence.room?.name ?? "This room"} may not start: ${reasons[0]?.text ?? "something is still owed"}.`;
}

export const startCase = occupancyCommand({
  name: "start-case",
  summary: "Say that a case has started: the room is in use, and nothing changes under it.",
  from: "idle",
  wrongState: "a case is running here, or the room is closed today.",
  needs: mayStart,
  act: begin("in-use"),
  said: "Case started in",
});

export const endCase = occupancyCommand({
  name: "end-case",
  summary: "Say that the case has ended.",
  from: "in-use",
  wrongState: "no case is running here.",
  act: end("in-use"),
  said: "Case ended in",
});

export const closeRoom = occupancyCommand({
  name: "close-room",
  summary: "Close a room for today: it is quiet and not counted.",
  from: "idle",
  wrongState: "a case is running here, or the room is closed already.",
  act: begin("closed"),
  said: "Closed for today:",
});

export const openRoom = occupancyCommand({
  name: "open-room",
  summary: "Open a closed room again.",
  from: "closed",
  wrongState: "the room is not closed.",
  act: reopen,
  said: "Opened again:",
});
